//! Rounds as they were written down: what is refused, where balls lay, and that the parts add up.
use std::sync::{Arc, OnceLock};
use wideberth::Run;
use wideberth::course::Course;
use wideberth::hole::{CrossingWater, Hazard, Hole, Sketch};
use wideberth::plan::Scene;
use wideberth::player::Player;
use wideberth::round::review::{JudgedStroke, Part, Review, Reviewing, Summed, WrittenRound};
use wideberth::situation::Situation;
use wideberth::solve::{Gained, Solution, Solving, Task};

fn course() -> Course {
    let hole = |par, length: f64| {
        let sketch = Sketch {
            bunkers: vec![Hazard::new(length - 12.0, -15.0)],
            ..Sketch::new(par, length)
        };
        Arc::new(Hole::sketch(&sketch).expect("a hole"))
    };
    Course::new("Heron Links", vec![hole(4, 372.0), hole(3, 150.0)], None).expect("a course")
}

fn player() -> Player {
    Player::from_handicap(17.0).expect("a player")
}

fn read(text: &str) -> Result<WrittenRound, String> {
    WrittenRound::read(text, &course(), &player().prepare()).map_err(|faults| faults.to_string())
}

const CARD: &str = "hole,stroke,club,lie,to_pin,side\n1,1,driver,tee,372,\n1,2,7-iron,rough,171,left 12\n\
    1,3,chip,fairway,24,\n1,4,putter,green,9,\n2,1,6-iron,tee,150,\n2,2,putter,green,30,right 2\n2,3,putt,green,3,\n";

fn solve(course: &Course, place: usize) -> Arc<Solution> {
    let bag = Arc::new(player().prepare());
    let scene = Scene::new(course.holes()[place].clone(), bag).expect("a scene");
    let task = Task {
        cell: 10.0,
        ..Task::default()
    };
    let mut run = Solving::new(Arc::new(scene), task).expect("a task");
    while !run.is_finished() {
        run.advance(1);
    }
    Arc::new(run.solution().expect("a solution"))
}

/// A hole of the course, solved once for all tests.
fn solution(place: usize) -> Arc<Solution> {
    static SOLVED: [OnceLock<Arc<Solution>>; 2] = [const { OnceLock::new() }; 2];
    let solved = SOLVED[place].get_or_init(|| solve(&course(), place));
    solved.clone()
}

#[test]
fn choice_and_execution_add_up_to_the_score() {
    let course = course();
    let round = read(CARD).expect("a round");
    let solutions = [solution(0), solution(1)];
    let of = |place: usize| solutions[place].clone();
    let mut run = Reviewing::new(&course, &round, of).expect("a review");
    while !run.is_finished() {
        run.advance(1);
    }
    let review = run.review();
    assert_eq!(review.strokes.len(), 7);
    let expected: f64 = solutions.iter().map(|s| s.from_the_tee()).sum();
    let gained: f64 = review.strokes.iter().map(|s| s.choice + s.execution).sum();
    assert!(
        (gained - (expected - 7.0)).abs() < 0.02,
        "{gained} {expected}"
    );
    for stroke in &review.strokes {
        assert!((stroke.choice + stroke.execution - stroke.gained.gained).abs() < 1e-12);
        assert!(
            stroke.is_judged && stroke.luck > 0.0 && stroke.choice < 0.07,
            "{stroke:?}"
        );
    }
    let parts: Vec<Part> = review.strokes.iter().map(|s| s.part).collect();
    assert_eq!(
        parts,
        [
            Part::TeeShots,
            Part::Approaches,
            Part::AroundTheGreen,
            Part::Putting,
            Part::Approaches,
            Part::Putting,
            Part::Putting
        ]
    );
    // A putt holed from nine feet is the better for it, a putt left three feet away from thirty about what was to be expected.
    assert!(review.strokes[3].execution > 0.3);
    assert!(review.strokes[5].execution.abs() < 0.3);
    // The fairway to the left was told as rough: sand, rough or fairway, what was told counts.
    assert!(
        review
            .outcomes
            .iter()
            .any(|o| o.club == "6-iron" && o.finish == "hit")
    );
}

/// A review of four strokes by hand: sums in the order of play, and the 3-4-5 triangle for what luck does to two of them.
#[test]
fn strokes_are_added_up_by_kind() {
    let stroke = |place, number, club: &str, part, [gained, choice, luck]: [f64; 3]| JudgedStroke {
        row: 1,
        place,
        number,
        club: club.to_owned(),
        part,
        from: Situation::on_the_tee(&course().holes()[0]),
        to_pin: 100.0,
        gained: Gained {
            before: 3.5,
            after: 2.0,
            used: number as u8,
            gained,
        },
        choice,
        execution: gained - choice,
        luck,
        best: String::new(),
        is_judged: true,
    };
    let review = Review {
        strokes: vec![
            stroke(4, 1, "driver", Part::TeeShots, [-0.5, -0.25, 0.3]),
            stroke(4, 2, "putter", Part::Putting, [0.125, 0.0, 0.0]),
            stroke(2, 1, "7-iron", Part::Approaches, [1.0, 0.0, 0.75]),
            stroke(2, 2, "driver", Part::Approaches, [-1.5, -1.0, 0.4]),
        ],
        outcomes: Vec::new(),
        notes: Vec::new(),
    };
    assert_eq!((review.score(), review.expected()), (6, 7.0));
    assert_eq!(review.over_expected(), -1.0);
    let told = |sum: &Summed| (sum.strokes, sum.gained, sum.choice, sum.execution);
    assert_eq!(told(&review.in_all()), (4, -0.875, -1.25, 0.375));
    let clubs = review.by_club();
    let names: Vec<&str> = clubs.iter().map(|(name, _)| *name).collect();
    assert_eq!(names, ["driver", "putter", "7-iron"]);
    let driver = clubs[0].1;
    assert_eq!(told(&driver), (2, -2.0, -1.25, -0.75));
    assert!((driver.luck - 0.5).abs() < 1e-15 && (driver.beyond_luck + 1.5).abs() < 1e-15);
    assert_eq!((clubs[1].1.luck, clubs[1].1.beyond_luck), (0.0, 0.0));
    let holes: Vec<_> = review
        .by_hole()
        .iter()
        .map(|(p, s)| (*p, s.gained))
        .collect();
    assert_eq!(holes, [(4, -0.375), (2, -0.5)]);
    let parts: Vec<_> = review
        .by_part()
        .iter()
        .map(|(p, s)| (*p, s.gained))
        .collect();
    let by_part = [-0.5, -0.5, 0.0, 0.125];
    assert_eq!(
        parts,
        Part::ALL.into_iter().zip(by_part).collect::<Vec<_>>()
    );
    assert!(parts[2].1.is_sign_positive());
}

#[test]
fn a_worse_club_costs_by_choice_alone() {
    // From 150 yards on a par 3 the club that goes half the way: the choice costs most of a stroke, whatever came of it.
    let course = course();
    let card = "hole,stroke,club,lie,to_pin\n2,1,sand wedge,tee,150\n2,2,sand wedge,fairway,70\n2,3,putter,green,20\n2,4,putter,green,2\n";
    let round = read(card).expect("a round");
    let solved = solution(1);
    let mut run = Reviewing::new(&course, &round, |_| solved.clone()).expect("a review");
    run.advance(9);
    let strokes = run.review().strokes;
    assert!(strokes[0].choice < -0.4, "{:?}", strokes[0]);
    assert!(
        strokes[0].best.contains("iron")
            || strokes[0].best.contains("hybrid")
            || strokes[0].best.contains("wood")
    );
}

/// Where a 6-iron at the green of 150 yards ended, by the place of the ball and the penalty of the stroke.
#[test]
fn an_outcome_is_told_of_where_the_ball_came_to_lie_by_itself() {
    let course = course();
    let solved = solution(1);
    let finish = |place: &str, penalty: &str, number: u32| -> Vec<&'static str> {
        let card = format!(
            "hole,stroke,club,lie,to_pin,side,penalty\n2,1,6-iron,tee,150,,{penalty}\n2,{number},chip,rough,{place},\n"
        );
        let round = read(&card).expect("a round");
        let mut run = Reviewing::new(&course, &round, |_| solved.clone()).expect("a review");
        run.advance(9);
        run.review().outcomes.iter().map(|o| o.finish).collect()
    };
    assert_eq!(finish("25,left 24", "", 2), ["left"]);
    assert_eq!(finish("25,right 24", "", 2), ["right"]);
    assert_eq!(finish("25,", "", 2), ["short"]);
    assert_eq!(finish("25,long", "", 2), ["long"]);
    // Where a ball was dropped says nothing of the stroke before.
    assert!(finish("25,left 24", "1", 3).is_empty());
}

/// A club that always ends in the pond costs its stroke and the penalty, for it is played again from the tee.
#[test]
fn a_penalty_is_part_of_what_a_stroke_is_worth() {
    let sketch = Sketch {
        crossings: vec![CrossingWater {
            at: 80.0,
            width: 100.0,
            name: None,
        }],
        ..Sketch::new(3, 150.0)
    };
    let hole = Arc::new(Hole::sketch(&sketch).expect("a hole"));
    let course = Course::new("A pond", vec![hole], None).expect("a course");
    let card = "hole,stroke,club,lie,to_pin,penalty\n1,1,sand wedge,tee,150,1\n1,3,6-iron,tee,150,\n1,4,putter,green,9,\n";
    let round = WrittenRound::read(card, &course, &player().prepare()).expect("a round");
    let solved = solve(&course, 0);
    let mut run = Reviewing::new(&course, &round, |_| solved.clone()).expect("a review");
    run.advance(9);
    let choice = run.review().strokes[0].choice;
    assert!((-2.4..-1.5).contains(&choice), "{choice}");
}

#[test]
fn balls_lie_where_they_were_told() {
    let round = read(
        "hole;stroke;club;lie;to_pin;side\n1;1;driver;tee;372;\n1;2;7-iron;rough;171;left 12\n1;3;chip;rough;20;right 5 long\n1;4;putter;green;9;\n",
    )
    .expect("a round");
    let course = course();
    let solved = solution(0);
    let mut run = Reviewing::new(&course, &round, |_| solved.clone()).expect("a review");
    run.advance(1);
    let strokes = run.review().strokes;
    let pin = course.holes()[0].pin();
    let at = |i: usize| strokes[i].from.at - pin;
    assert!(
        (strokes[1].to_pin - 171.0).abs() < 1e-6 && (at(1).x + 12.0).abs() < 1e-9 && at(1).y < 0.0
    );
    assert!(
        (strokes[2].to_pin - 20.0).abs() < 1e-6 && (at(2).x - 5.0).abs() < 1e-9 && at(2).y > 0.0
    );
    assert!((strokes[3].to_pin - 3.0).abs() < 1e-6);
}

/// Nobody writes on which side a putt is: where the pin is cut away from the line of play, a ball may lie nearer to it than to
/// the line.
#[test]
fn a_pin_may_be_cut_away_from_the_line_of_play() {
    let sketch = Sketch {
        pin_right: 8.0,
        ..Sketch::new(4, 372.0)
    };
    let hole = Arc::new(Hole::sketch(&sketch).expect("a hole"));
    let course = Course::new("One", vec![hole.clone()], None).expect("a course");
    let pin = hole.pin();
    let solved = solve(&course, 0);
    let judged = |rows: &str| {
        let text = format!("hole,stroke,club,lie,to_pin,side\n{rows}");
        let round = WrittenRound::read(&text, &course, &player().prepare()).expect("a round");
        let mut run = Reviewing::new(&course, &round, |_| solved.clone())?;
        run.advance(1);
        Ok::<_, wideberth::round::review::ReviewFaults>(run.review().strokes)
    };
    let strokes = judged(
        "1,1,driver,tee,372,\n1,2,7-iron,fairway,150,\n1,3,chip,fringe,6,\n1,4,chip,rough,5,right 12\n\
        1,5,putter,green,9,\n1,6,putt,green,2,long\n",
    )
    .expect("a review");
    let from = |i: usize| strokes[i].from.at - pin;
    for (i, far) in [(1, 150.0), (2, 6.0), (3, 5.0), (4, 3.0), (5, 2.0 / 3.0)] {
        assert!((from(i).norm() - far).abs() < 1e-6, "{i}: {}", from(i));
    }
    // On the line of play; straight before the flag; so far to the right as was told; before it; and beyond.
    assert!((from(1).x + 8.0).abs() < 1e-9 && from(2).x.abs() < 1e-9);
    assert!((from(3).x - 4.0).abs() < 1e-9 && from(4).x.abs() < 1e-9);
    assert!(from(4).y < 0.0 && from(5).y > 0.0);
    let wide = judged("1,1,chip,rough,5,left 2\n")
        .expect_err("a fault")
        .to_string();
    assert!(
        wide.contains("side puts the ball 10 yards aside of the flag"),
        "{wide}"
    );
}

#[test]
fn every_fault_is_told_with_its_row() {
    let text = "hole,stroke,club,lie,to_pin,side\n1,1,brassie,tee,372,\n3,2,7-iron,rough,171,\n1,x,chip,lawn,0,middle\n1,4\n";
    let faults = read(text).expect_err("faults");
    for part in [
        "row 2 (the header is row 1): club is \"brassie\"; it must be one of driver,",
        "row 3 (the header is row 1): hole is \"3\"; it must be one of 1, 2",
        "row 4 (the header is row 1): stroke is \"x\"; it must be a whole number",
        "row 4 (the header is row 1): lie is \"lawn\"; it must be one of tee, fairway",
        "row 4 (the header is row 1): to_pin is \"0\"; it must be yards above 0",
        "row 4 (the header is row 1): side is \"middle\"; it must be empty, or yards",
        "row 5 (the header is row 1): 2 cells; the header has 6",
    ] {
        assert!(faults.contains(part), "{part}\n{faults}");
    }
    let gap = CARD.replace("1,4,putter", "1,5,putter");
    let fault = read(&gap).expect_err("a fault");
    assert!(
        fault.contains(
            "row 5 (the header is row 1): stroke is 5; on hole 1 it must be 4 (was there a penalty?"
        ),
        "{fault}"
    );
    let parted = "hole,stroke,club,lie,to_pin\n1,1,driver,tee,372\n2,1,6-iron,tee,150\n1,2,7-iron,rough,171\n";
    let fault = read(parted).expect_err("a fault");
    assert!(
        fault.contains("row 4 (the header is row 1): hole 1 began before"),
        "{fault}"
    );
    let fault = read("hole,stroke,club,wind,wind\n").expect_err("faults");
    for part in [
        "no column lie",
        "column \"wind\" is not known",
        "\"wind\" is there twice",
        "the table has 0 rows",
    ] {
        assert!(fault.contains(part), "{part}\n{fault}");
    }
    for blank in ["\n1,1,driver", ",,,,,\n1,1,driver"] {
        let fault = read(&format!("{blank},tee,372,\n")).expect_err("a fault");
        assert!(
            fault.starts_with("row 1 is blank; it must be the header, such as hole, stroke"),
            "{fault}"
        );
    }
    let penalty = "hole,stroke,club,lie,to_pin,penalty\n1,1,driver,tee,372,1\n1,3,driver,tee,372,\n1,4,putt,green,9,\n";
    assert!(read(penalty).is_ok());
}

#[test]
fn blank_lines_are_passed_over_and_counted() {
    let rows: Vec<&str> = CARD.lines().collect();
    let blank = rows.join("\n\n  \n,, , ,,\n");
    let lines = |text: &str| -> Vec<usize> {
        let round = read(text).expect("a round");
        round.0.iter().map(|stroke| stroke.row).collect()
    };
    assert_eq!(lines(CARD), (2..=rows.len()).collect::<Vec<_>>());
    let four_apart: Vec<usize> = (1..rows.len()).map(|row| 1 + 4 * row).collect();
    assert_eq!(lines(&blank), four_apart);
    let fault = read(&blank.replace("1,3,chip", "1,3,chpi")).expect_err("a fault");
    assert!(
        fault.contains("row 13 (the header is row 1): club is"),
        "{fault}"
    );
}

#[test]
fn balls_that_lie_nowhere_are_refused_before_anything_is_judged() {
    let course = course();
    let solved = solution(0);
    let refused = |row: &str| {
        let text = format!("hole,stroke,club,lie,to_pin,side\n{row}\n");
        let round = read(&text).expect("a round");
        let run = Reviewing::new(&course, &round, |_| solved.clone());
        run.err().map(|faults| faults.to_string())
    };
    let far = refused("1,1,driver,tee,500,").expect("a fault");
    assert!(
        far.contains(
            "row 2 (the header is row 1): to_pin is 500 from the tee, which lies 372 yards"
        ),
        "{far}"
    );
    let wide = refused("1,1,7-iron,rough,20,left 25").expect("a fault");
    assert!(
        wide.contains("side puts the ball 25 yards aside of the flag; it must be no more than the way to the pin, 20 yards"),
        "{wide}"
    );
    assert_eq!(refused("1,1,driver,tee,380,"), None);
}

#[test]
fn what_may_have_been_forgotten_is_asked_for() {
    let course = course();
    let solved = solution(0);
    let notes = |rows: &str| {
        let text = format!("hole,stroke,club,lie,to_pin,side\n{rows}\n");
        let round = read(&text).expect("a round");
        let run = Reviewing::new(&course, &round, |_| solved.clone());
        run.expect("a review").review().notes.join("\n")
    };
    let asked = [
        // A round that ends on the fairway, a ball teed up again, and a hole of 372 yards told in metres.
        (
            "1,1,driver,tee,372,\n1,2,7-iron,fairway,150,",
            "Row 3: holed from 150 yards",
        ),
        (
            "1,1,driver,tee,372,\n1,2,driver,tee,372,\n1,3,putter,green,9,",
            "Row 2: the ball lies where it lay before",
        ),
        (
            "1,1,driver,tee,340,\n1,2,putter,green,9,",
            "Row 2: 340 from the tee, which lies 372 yards from the pin",
        ),
    ];
    for (rows, words) in asked {
        assert!(notes(rows).contains(words), "{rows}: {}", notes(rows));
    }
    let fine = notes("1,1,driver,tee,370,\n1,2,7-iron,fairway,150,\n1,3,putter,green,9,");
    assert_eq!(fine, "");
}
