"""What a player is called."""

import pytest
import wideberth as wb


@pytest.mark.parametrize("reference", ["men", "women"])
@pytest.mark.parametrize("handicap", [18, 7.5])
def test_the_handicap_is_named_once(reference, handicap):
    player = wb.Player.from_handicap(handicap, reference=reference)
    for text in (repr(player), player._repr_html_(), repr(player.table()), repr(player.expectations(plays=200))):
        assert text.count("handicap") == 1 and f"handicap {handicap:g}" in text
        assert ("(women)" in text) is (reference == "women")


def test_a_name_that_tells_another_number_is_no_handicap():
    document = wb.Player.from_handicap(18).to_json()
    for name in ("Kim", "handicap 18.5", "handicap 180"):
        player = wb.Player.from_json(document.replace('"handicap 18"', f'"{name}"'))
        assert repr(player).startswith(f"{name}, handicap 18")
