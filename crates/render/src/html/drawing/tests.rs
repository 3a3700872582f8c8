use super::*;
use engine::{Bar, Mark};
use quantity::m;

fn chart(points: Vec<(f64, f64)>) -> Chart {
    let line = Line { name: "<b>name</b>".into(), says: String::new(), limit: false, points };
    let (x, y) = (Axis::of::<m::Speed>("speed", "km/h"), Axis::of::<m::Force>("pull", "N"));
    Chart { shows: String::new(), x, y, lines: vec![line], marks: Vec::new(), missing: Vec::new() }
}

/// Places of all labels of a shape.
fn places(svg: &str, shape: &str) -> Vec<(i32, i32)> {
    let number = |tag: &str, name: &str| {
        let rest = tag.split_once(&format!(" {name}=\"")).unwrap().1;
        rest.split_once('"').unwrap().0.parse::<i32>().unwrap()
    };
    let all = svg.lines().filter(|line| line.starts_with(shape) && line.contains("#FFFFFF"));
    match shape {
        "<circle" => all.map(|tag| (number(tag, "cx"), number(tag, "cy"))).collect(),
        _ => all.map(|tag| (number(tag, "x"), number(tag, "y"))).collect(),
    }
}

#[test]
fn a_line_goes_from_axis_to_axis_and_no_name_stands_in_the_drawing() {
    let svg = curves(&chart(vec![(0.0, 100.0), (10.0, 0.0)])).unwrap();
    assert!(svg.contains("pull, N") && svg.contains("speed, km/h") && svg.contains(">\nA\n<"), "{svg}");
    assert!(!svg.contains("name") && !svg.contains("http") && !svg.contains("svg"), "{svg}");
    let line = svg.lines().find(|line| line.contains("#0B4F9E")).unwrap();
    let points = line.split_once("points=\"").unwrap().1.split_once('"').unwrap().0;
    let ends: Vec<&str> = points.split_whitespace().collect();
    let [(x0, y0), (x1, y1)] = [ends[0], ends[ends.len() - 1]].map(|end| end.split_once(',').unwrap());
    let [x0, y0, x1, y1] = [x0, y0, x1, y1].map(|figure| figure.parse::<i32>().unwrap());
    assert!(x0 < 200 && x1 > 1380 && y0 < 130 && y1 > 650, "{points}");
}

#[test]
fn what_is_no_number_leaves_a_hole_and_nothing_but_such_draws_nothing() {
    let holed = vec![(0.0, 1.0), (1.0, 2.0), (2.0, f64::NAN), (3.0, 3.0), (4.0, 1.0)];
    assert_eq!(curves(&chart(holed)).unwrap().matches("#0B4F9E").count(), 2);
    for none in [vec![], vec![(f64::NAN, 1.0)], vec![(0.0, f64::INFINITY), (1.0, f64::NAN)]] {
        assert_eq!(curves(&chart(none)), None);
    }
}

#[test]
fn beyond_all_reason_nothing_hangs_and_nothing_panics() {
    let sizes = [0.0, 5e-324, 1e-300, 1e-9, 1.0, 1.0 + 1e-15, 3e5, 1e15, 1e300, f64::MAX, -1.0, -1e300];
    for a in sizes {
        for b in sizes {
            let mut one = chart(vec![(a, b), (b, a), (a, a)]);
            for tenfold in [false, true] {
                one.y.tenfold = tenfold;
                if let Some(svg) = curves(&one) {
                    assert!(!svg.contains("NaN") && !svg.contains("inf") && svg.len() < 40_000, "{a} {b}: {svg}");
                }
            }
        }
        let bar = Bar {
            name: String::new(),
            parts: vec![("a", a), ("b", 1e-3)],
            limits: vec![("c", a)],
            says: String::new(),
        };
        let axis = Axis::of::<m::Length>("length", "mm");
        let one = Bars { shows: String::new(), axis, bars: vec![bar], missing: Vec::new() };
        if let Some(svg) = bars(&one, &["c"]) {
            assert!(!svg.contains("NaN") && svg.len() < 40_000, "{a}: {svg}");
        }
    }
}

#[test]
fn what_lies_outside_is_cut_off_at_the_edge_and_told() {
    let mut one = chart(vec![(0.0, 10.0), (1.0, 0.0)]);
    one.y.most = Some(5.0);
    one.marks = [(0.5, 3.0), (0.5, 9.0)].map(|at| Mark { name: String::new(), says: String::new(), at }).to_vec();
    assert_eq!(within(&one), Some((vec![true], vec![true, false])));
    let (x, y) = (0.0..1.0, 0.0..5.0);
    let cut = pieces([(0.0, 10.0), (1.0, 0.0), (2.0, 0.0)].into_iter(), &x, &y);
    assert_eq!(cut, [[(0.5, 5.0), (1.0, 0.0)]]);
    let through = pieces([(0.0, 10.0), (1.0, -10.0)].into_iter(), &x, &y);
    assert_eq!(through, [[(0.25, 5.0), (0.5, 0.0)]]);
    let back = pieces([(0.0, 1.0), (0.25, 9.0), (0.5, 1.0)].into_iter(), &x, &y);
    assert_eq!((back.len(), back[0][1], back[1][0]), (2, (0.125, 5.0), (0.375, 5.0)));
}

#[test]
fn labels_of_a_dozen_marks_in_one_place_do_not_cover_one_another() {
    let mut one = chart(vec![(0.0, 10.0), (10.0, 0.0)]);
    one.marks = (0..9).map(|_| Mark { name: String::new(), says: String::new(), at: (5.0, 5.0) }).collect();
    let labels = places(&curves(&one).unwrap(), "<circle");
    assert_eq!(labels.len(), 9);
    for (index, a) in labels.iter().enumerate() {
        for b in labels.get(index + 1..).unwrap() {
            assert!((a.0 - b.0).abs() > 44 || (a.1 - b.1).abs() > 44, "{a:?} {b:?}");
        }
    }
}

#[test]
fn each_line_has_a_letter_and_the_style_sheet_knows_each_colour() {
    let mut one = chart(vec![(0.0, 10.0), (10.0, 0.0)]);
    let line = one.lines[0].clone();
    one.lines =
        (0..30).map(|high| Line { points: vec![(0.0, f64::from(high)), (10.0, 1.0)], ..line.clone() }).collect();
    let svg = curves(&one).unwrap();
    for letter in (0..30).map(letter) {
        assert!(svg.contains(&format!(">\n{letter}\n<")), "{letter}");
    }
    assert_eq!([0, 25, 26, 52].map(letter), ["A", "Z", "A1", "A2"]);
    let style = include_str!("../style.css");
    for stroke in LINES.iter().chain([&INK, &LIMIT, &GRID]) {
        assert!(
            style.contains(&format!("[stroke=\"{}\"]{{stroke", hex(*stroke)))
                || style.contains(&format!("[stroke=\"{}\"],", hex(*stroke))),
            "{stroke:?}"
        );
    }
    for fill in PARTS.iter().chain([&INK, &PAPER]) {
        assert!(style.contains(&format!("[fill=\"{}\"]{{fill", hex(*fill))), "{fill:?}");
    }
    // Dashes tell the lines apart without colour.
    let dashes = |colour: &RGBColor| {
        let rule = style.split(&format!("[stroke=\"{}\"]", hex(*colour))).last().unwrap().split('}').next().unwrap();
        rule.split_once("dasharray:").map_or("whole", |dashes| dashes.1).to_owned()
    };
    let mut all: Vec<String> = LINES.iter().chain([&LIMIT]).map(dashes).collect();
    all.sort();
    all.dedup();
    assert_eq!(all.len(), 7, "{all:?}");
}
