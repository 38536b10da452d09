//! Player documents: round trips, strict reading, and nothing that panics.
use proptest::prelude::*;
use wideberth::noise::{PlayNoise, Seed};
use wideberth::player::{Club, ClubParts, Lie, Player};

fn player(handicap: f64) -> Player {
    Player::from_handicap(handicap).unwrap()
}

#[test]
fn documents_give_the_same_player_back() {
    for player in [player(0.0), player(33.3), Player::professional().unwrap()] {
        let text = player.to_json().unwrap();
        assert_eq!(Player::from_json(&text).unwrap(), player);
        assert_eq!(
            Player::from_json(&text).unwrap().prepare(),
            player.prepare()
        );
    }
}

/// A launch of the player's own is kept with the club, alone or in a bag; one that is not told is not written.
#[test]
fn a_players_own_launch_travels() {
    let plain = player(10.0);
    assert!(!plain.to_json().unwrap().contains("launch_deg"));
    let mut parts = plain.clone().into_parts();
    let own = ClubParts {
        launch_deg: Some(14.5),
        spin_rpm: Some(3100.0),
        ..parts.clubs[0].clone().into_parts()
    };
    parts.clubs[0] = Club::new(own.clone()).unwrap();
    let player = Player::new(parts).unwrap();
    let again = Player::from_json(&player.to_json().unwrap()).unwrap();
    assert_eq!(again, player);
    assert_ne!(again, plain);
    let bag = again.prepare();
    let longest = bag.longest(Lie::Tee);
    assert_eq!(bag.club(longest).launch_deg, Some(14.5));
    let longer = again.with_carry(&own.name, 260.0).unwrap();
    assert_eq!(longer.club(&own.name).unwrap().spin_rpm, Some(3100.0));
    assert_eq!(
        longer.without_spread().club(&own.name).unwrap().launch_deg,
        Some(14.5)
    );
    for (launch_deg, spin_rpm, words) in [
        (
            Some(90.0),
            None,
            "launch_deg is 90; it must be 0.1 to 85 degrees",
        ),
        (
            None,
            Some(f64::NAN),
            "spin_rpm is NaN; it must be 0 to 15000 rpm",
        ),
    ] {
        let parts = ClubParts {
            launch_deg,
            spin_rpm,
            ..own.clone()
        };
        let text = Club::new(parts).unwrap_err().to_string();
        assert!(text.contains(words), "{text}");
    }
}

#[test]
fn documents_are_read_strictly() {
    let good = player(18.0).to_json().unwrap();
    let read = |from: &str, to: &str| {
        assert!(good.contains(from), "{from}");
        Player::from_json(&good.replacen(from, to, 1))
            .unwrap_err()
            .to_string()
    };
    let format = read("wideberth-player", "wideberth-hole");
    assert_eq!(
        format,
        "player document: format is wideberth-hole; it must be wideberth-player"
    );
    let version = read("\"version\": 1", "\"version\": 2");
    assert_eq!(version, "player document: version is 2; it must be 1");
    let unknown = read("\"habits\"", "\"luck\"");
    assert!(
        unknown.contains("unknown field `luck`") && unknown.contains("line"),
        "{unknown}"
    );
    let missing =
        Player::from_json("{\"format\": \"wideberth-player\", \"version\": 1}").unwrap_err();
    assert!(
        missing.to_string().contains("missing field `name`"),
        "{missing}"
    );
    assert!(read("\"pace\": ", "\"pace\": -").contains("pace is -0."));
    assert!(
        Player::from_json("{")
            .unwrap_err()
            .to_string()
            .contains("not JSON")
    );
    assert!(
        Player::from_json(&good.replacen("\"carry\": ", "\"carry\": 1e999, \"x\": ", 1)).is_err()
    );
}

/// Any JSON value, up to three levels deep.
fn any_json() -> impl Strategy<Value = serde_json::Value> {
    let leaf = prop_oneof![
        Just(serde_json::Value::Null),
        any::<bool>().prop_map(Into::into),
        any::<f64>().prop_map(Into::into),
        any::<i64>().prop_map(Into::into),
        ".{0,8}".prop_map(serde_json::Value::from),
    ];
    leaf.prop_recursive(3, 16, 4, |inner| {
        prop_oneof![
            prop::collection::vec(inner.clone(), 0..4).prop_map(serde_json::Value::from),
            prop::collection::btree_map("[a-z_]{1,8}", inner, 0..4)
                .prop_map(|m| serde_json::Value::Object(m.into_iter().collect())),
        ]
    })
}

/// A good document with its `at`-th value replaced.
fn edit(at: usize, to: &serde_json::Value) -> String {
    let mut document: serde_json::Value =
        serde_json::from_str(&player(18.0).to_json().unwrap()).unwrap();
    replace(&mut document, &mut { at }, to);
    document.to_string()
}

fn replace(value: &mut serde_json::Value, n: &mut usize, to: &serde_json::Value) -> bool {
    if *n == 0 {
        *value = to.clone();
        return true;
    }
    *n -= 1;
    match value {
        serde_json::Value::Array(a) => a.iter_mut().any(|v| replace(v, n, to)),
        serde_json::Value::Object(o) => o.values_mut().any(|v| replace(v, n, to)),
        _ => false,
    }
}

proptest! {
    #[test]
    fn any_text_is_read_or_refused(text in ".{0,200}") {
        let _ = Player::from_json(&text);
    }

    /// A document with one value replaced by any other is refused, or is a player that plays.
    #[test]
    fn any_change_to_a_document_is_read_or_refused(at in 0_usize..420, to in any_json()) {
        let text = edit(at, &to);
        if let Ok(player) = Player::from_json(&text) {
            let bag = player.prepare();
            for club in bag.clubs() {
                for lie in Lie::ALL {
                    let swing = bag.swing(club, lie);
                    let strike = swing.strike(swing.full_carry, &PlayNoise::new(Seed(1), at as u64).stroke(0));
                    prop_assert!(strike.carry > 0.0 && strike.carry.is_finite() && strike.lateral.is_finite());
                }
            }
        }
    }
}
