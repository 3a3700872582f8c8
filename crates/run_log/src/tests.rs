#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing)]

use crate::{Column, Digest, Role, Why, read};
use proptest::prelude::*;
use std::io::{self, Read};

fn column(role: Role, heading: &str, unit: &str) -> Column {
    Column { role, heading: heading.into(), unit: unit.into() }
}

fn columns() -> Vec<Column> {
    vec![
        column(Role::Time, "t", "s"),
        column(Role::Speed, "v", "km/h"),
        column(Role::MotorCurrent, "i", "A"),
        column(Role::BatteryCurrent, "b", "A"),
        column(Role::BatteryVoltage, "u", "V"),
    ]
}

fn digest(text: &str) -> Digest {
    read(text.as_bytes(), &columns()).unwrap().unwrap()
}

/// What is wrong, and where.
fn wrong(text: impl AsRef<[u8]>) -> (String, Why) {
    let trouble = read(text.as_ref(), &columns()).unwrap_err();
    assert!(!trouble.why.to_string().is_empty() && !trouble.why.help().is_empty());
    (trouble.place.to_string(), trouble.why)
}

#[test]
fn a_run_of_two_loads_by_hand() {
    // 6 s at 30 A and 36 km/h, 4 s at -10 A and 18 km/h.
    let digest = digest("t,v,i,b,u\n0,36,30,20,50\n6,18,-10,-5,52\n10,0,0,0,54\n");
    assert_eq!((digest.rows, digest.seconds), (3, 10.0));
    let current = digest.motor_current.unwrap();
    assert_eq!((current.ends.lowest, current.ends.highest, current.mean), (-10.0, 30.0, 14.0));
    assert!((current.effective - 580f64.sqrt()).abs() < 1e-12);
    assert!((current.ten_seconds.unwrap() - 580f64.sqrt()).abs() < 1e-9);
    let battery = digest.battery_current.unwrap();
    assert_eq!((battery.out, battery.back), (120.0, 20.0));
    let power = digest.battery_power.unwrap();
    assert_eq!((power.out, power.back), (6000.0, 1040.0));
    let speed = digest.speed.unwrap();
    assert!((speed.out - 80.0).abs() < 1e-12 && (speed.ends.highest - 10.0).abs() < 1e-12);
    let steps: Vec<_> = digest.by_current.iter().map(|step| (step.load.round(), step.seconds)).collect();
    assert_eq!(steps, [(-10.0, 4.0), (30.0, 6.0)]);
}

#[test]
fn units_are_those_of_the_spec_and_a_column_without_one_is_left_out() {
    let text = "t,i,warm\n0,1500,68\n500,2500,86\n1000,0,50\n";
    let all = [
        column(Role::Time, "t", "ms"),
        column(Role::MotorCurrent, "i", "mA"),
        column(Role::MotorTemperature, "warm", "°F"),
    ];
    let digest = read(text.as_bytes(), &all).unwrap().unwrap();
    let current = digest.motor_current.unwrap();
    assert_eq!((digest.seconds, current.ends.highest, current.mean), (1.0, 2.5, 2.0));
    assert!((digest.motor_temperature.unwrap().highest - 303.15).abs() < 1e-9 && current.ten_seconds.is_none());
    let unsaid = [column(Role::Time, "t", "s"), column(Role::MotorCurrent, "i", "")];
    assert!(read(text.as_bytes(), &unsaid).unwrap().unwrap().motor_current.is_none());
    assert_eq!(read(text.as_bytes(), &[column(Role::Time, "t", "")]), Ok(None));
}

#[test]
fn what_is_wrong_is_said_with_its_place() {
    let head = "t,v,i,b,u\n0,1,1,1,50\n";
    let row = |row: &str| wrong(format!("{head}{row}\n"));
    assert_eq!(wrong(""), ("line 1".into(), Why::Empty));
    assert_eq!(wrong("t,v,i,b,u\n").1, Why::NoRows);
    assert_eq!(wrong(head).1, Why::OneRow);
    assert_eq!(row("0,1,1,1,50").1, Why::NoTimePasses);
    assert_eq!(row("1,1,--,1,50"), ("line 3, column 3 (`i`)".into(), Why::NotNumber { text: "--".into() }));
    assert_eq!(row("1,1,NaN,1,50").1, Why::NotFinite { text: "NaN".into() });
    assert_eq!(row("1,1,-inf,1,50").1, Why::NotFinite { text: "-inf".into() });
    assert_eq!(row("1,1,1e999,1,50").1, Why::TooLarge { text: "1e999".into() });
    assert_eq!(row("1,1,,1,50").1, Why::NothingInCell);
    assert_eq!(row("1,1,\"3,5\",1,50").1, Why::DecimalComma { text: "3,5".into() });
    assert_eq!(row("1,1,1,1").1, Why::Cells { has: 4, wanted: 5 });
    assert!(row("1,0,1,0,1,0,1,0,50,0").1.help().contains("decimal commas"));
    assert_eq!(row("-1,1,1,1,50"), ("line 3, column 1 (`t`)".into(), Why::Backwards { before: 0.0, now: -1.0 }));
    assert_eq!(wrong("t;v;i;b;u\n0;1;1;1;50\n").1, Why::PartedBy { mark: ';' });
    assert_eq!(wrong("t\tv\n0\t1\n").1, Why::PartedBy { mark: '\t' });
    assert_eq!(wrong("t,v,i,b,u,v\n").1, Why::TwoHeadings { heading: "v".into() });
    let Why::NoHeading { heading, has, .. } = wrong("t,speed,i,b,u\n").1 else { panic!() };
    assert!(heading == "v" && has.contains(&"speed".to_owned()));
    assert_eq!(wrong(b"t,v,i,b,u\n0,1,\xff\xfe,1,50\n").1, Why::NotUtf8);
    assert_eq!(wrong(b"t\xe9,v,i,b,u\n").1, Why::NotUtf8);
    assert_eq!(wrong(b"\xff\xfet\0,\0v\0\n\0").1, Why::Utf16);
    let gap: String = (0..50).map(|k| format!("{},1,1,1,50\n", f64::from(k) * 0.1)).collect();
    let (place, why) = wrong(format!("t,v,i,b,u\n{gap}99,1,1,1,50\n"));
    assert!(place.starts_with("line 52") && matches!(why, Why::Gap { .. }), "{place} {why}");
}

#[test]
fn a_slow_logger_has_no_gaps_and_a_mark_at_the_start_is_no_heading() {
    let slow =
        digest("\u{feff}t,v,i,b,u\r\n0,1,1,1,50\r\n60,1,1,1,50\r\n120,1,1,1,50\r\n180,1,1,1,50\r\n240,1,1,1,50\r\n");
    assert_eq!(slow.seconds, 240.0);
}

/// Rows that nobody stores: as many bytes as are asked for, made while they are read.
struct Endless {
    left: u64,
    row: u64,
    pending: Vec<u8>,
    quoted: bool,
}

impl Read for Endless {
    fn read(&mut self, into: &mut [u8]) -> io::Result<usize> {
        if self.left == 0 {
            return Ok(0);
        }
        if self.pending.is_empty() {
            while self.pending.len() < 64 << 10 {
                let quote = if self.quoted && self.row == 1000 { "\"" } else { "" };
                let (time, current) = (self.row as f64 * 0.001, 20 + self.row % 60);
                // As wide as loggers write that are proud of their digits.
                let row =
                    format!("{time:.9},{quote}12.345678901,{current}.000000000,{current}.000000000,50.1234567890\n");
                self.pending.extend_from_slice(row.as_bytes());
                self.row += 1;
            }
        }
        let some = into.len().min(self.pending.len());
        into[..some].copy_from_slice(&self.pending[..some]);
        self.pending.drain(..some);
        self.left = self.left.saturating_sub(some as u64);
        if self.left == 0 {
            // The last row ends where it is asked to.
            let whole = into[..some].iter().rposition(|byte| *byte == b'\n').map_or(0, |at| at + 1);
            return Ok(whole);
        }
        Ok(some)
    }
}

fn endless(bytes: u64, quoted: bool) -> impl Read {
    let rows = Endless { left: bytes, row: 0, pending: Vec::new(), quoted };
    "t,v,i,b,u\n".as_bytes().chain(rows)
}

#[test]
fn two_gigabytes_are_read_as_they_come() {
    // All of it takes most of a minute, so that the ordinary run reads 64 MiB; DRYFIT_LOG_BYTES=2147483648 reads the rest.
    // Nothing of a row is kept, so that neither bins nor memory grow with either.
    let bytes = std::env::var("DRYFIT_LOG_BYTES").ok().and_then(|text| text.parse().ok()).unwrap_or(64 << 20);
    let digest = read(endless(bytes, false), &columns()).unwrap().unwrap();
    assert!(digest.rows > bytes / 80 && digest.by_current.len() <= 130, "{} {}", digest.rows, digest.by_current.len());
    let current = digest.motor_current.unwrap();
    assert_eq!((current.ends.lowest, current.ends.highest), (20.0, 79.0));
    assert!((current.mean - 49.5).abs() < 0.01, "{}", current.mean);
}

#[test]
fn a_quotation_mark_that_nothing_closes_ends_the_reading_early() {
    let trouble = read(endless(2 << 30, true), &columns()).unwrap_err();
    assert!(matches!(trouble.why, Why::Endless { .. }), "{trouble:?}");
    assert_eq!(trouble.place.line, 1002);
    assert!(matches!(wrong("t,v,i,b,u\n0,\"1,1,1,50\n1,1,1,1,50\n").1, Why::Cells { .. }));
}

proptest! {
    #[test]
    fn bins_keep_time_mean_and_effective_value(rows in prop::collection::vec((0.01..3.0f64, -200.0..200.0f64, 0.0..40.0f64), 2..200)) {
        let mut text = String::from("t,v,i,b,u\n");
        let mut now = 0.0;
        for (seconds, current, speed) in &rows {
            text += &format!("{now},{speed},{current},0,50\n");
            now += seconds;
        }
        let digest = digest(&text);
        let sum = |f: &dyn Fn(&crate::Step) -> f64| digest.by_current.iter().map(f).sum::<f64>();
        let current = digest.motor_current.as_ref().unwrap();
        let near = |a: f64, b: f64| (a - b).abs() <= 1e-9 * b.abs().max(1.0);
        prop_assert!(near(sum(&|step| step.seconds), digest.seconds));
        prop_assert!(near(sum(&|step| step.load * step.load * step.seconds), current.effective.powi(2) * digest.seconds));
        prop_assert!(near(sum(&|step| step.speed * step.seconds), digest.speed.as_ref().unwrap().out));
        prop_assert!(current.ten_seconds.is_none_or(|ten| ten >= current.effective * (1.0 - 0.02) || digest.seconds > 10.0));
        prop_assert!(digest.by_current.len() <= 128 * 17);
    }

    #[test]
    fn any_bytes_are_answered(bytes in prop::collection::vec(any::<u8>(), 0..400)) {
        let _ = read(bytes.as_slice(), &columns());
        let mut headed = b"t,v,i,b,u\n0,1,1,1,50\n".to_vec();
        headed.extend_from_slice(&bytes);
        let _ = read(headed.as_slice(), &columns());
    }
}
