//! Logs of test runs that are missing, broken, or no logs at all.

use crate::inputs::spec;
use crate::{Case, case};
use document::FileTrouble;

const COLUMNS: &str =
    "{time: {heading: t, unit: s}, speed: {heading: v, unit: m/s}, motor_current: {heading: i, unit: A}}";

fn logged(name: &'static str, columns: &str) -> Case {
    case(name, spec(&format!("cases:\n  ride:\n    kind: log\n    log: ride.csv\n    columns: {columns}\n")))
}

fn bytes(name: &'static str, log: impl AsRef<[u8]>) -> Case {
    logged(name, COLUMNS).library_bytes("ride.csv", log.as_ref())
}

fn trouble(name: &'static str, trouble: FileTrouble) -> Case {
    logged(name, COLUMNS).trouble("ride.csv", trouble)
}

pub fn cases() -> Vec<Case> {
    let sound = "t,v,i\n0,1,20\n1,1,30\n";
    let quote = format!("t,v,i\n0,1,20\n1,\"1,30\n{}", "2,1,30\n".repeat(50_000));
    let binary: Vec<u8> = (0..2_000u32).map(|k| u8::try_from(k * 37 % 251).unwrap_or(0)).collect();
    vec![
        bytes("log is fine", sound),
        logged("log missing", COLUMNS),
        trouble("log missing, with a near name", FileTrouble::Missing { nearest: Some("rides.csv".into()) }),
        trouble("log outside the root", FileTrouble::OutsideRoot { root: "specs".into() }),
        trouble("log is a folder", FileTrouble::NotAFile),
        trouble("log cannot be read", FileTrouble::Unreadable { reason: "it may not be read or written".into() }),
        bytes("log is empty", ""),
        bytes("log has headings alone", "t,v,i\n"),
        bytes("log has one row", "t,v,i\n0,1,20\n"),
        bytes("log in which no time passes", "t,v,i\n5,1,20\n5,1,30\n"),
        bytes("log without a column", "t,speed,i\n0,1,20\n1,1,30\n"),
        bytes("log with a misspelt column", "t,V,i\n0,1,20\n1,1,30\n"),
        bytes("log with a column twice", "t,v,i,v\n0,1,20,1\n"),
        bytes("log with text in a cell", "t,v,i\n0,1,20\n1,1,off\n"),
        bytes("log with an empty cell", "t,v,i\n0,1,20\n1,,30\n"),
        bytes("log with not a number", "t,v,i\n0,1,20\n1,1,NaN\n"),
        bytes("log with infinity", "t,v,i\n0,1,20\n1,inf,30\n"),
        bytes("log with a number that is too large", "t,v,i\n0,1,20\n1,1,3e40\n"),
        bytes("log with a decimal comma in quotes", "t,v,i\n0,1,20\n1,1,\"30,5\"\n"),
        bytes("log with decimal commas", "t,v,i\n0,0,1,0,20,0\n"),
        bytes("log with semicolons", "t;v;i\n0;1,5;20\n1;1;30\n"),
        bytes("log with tabs", "t\tv\ti\n0\t1\t20\n"),
        bytes("log with a short row", "t,v,i\n0,1,20\n1,1\n"),
        bytes("log whose time goes back", "t,v,i\n0,1,20\n1,1,30\n0.5,1,30\n"),
        bytes("log with a gap", "t,v,i\n0,1,20\n0.1,1,20\n0.2,1,20\n0.3,1,20\n0.4,1,20\n90,1,30\n"),
        bytes("log with a quote that nothing closes", quote),
        bytes("log with other bytes than UTF-8 above", b"t,v,i\xff\n0,1,20\n"),
        bytes("log with other bytes than UTF-8 below", b"t,v,i\n0,1,20\n1,\xe9,30\n"),
        bytes("log of UTF-16", b"\xff\xfet\0,\0v\0,\0i\0\n\0"),
        bytes("log is no table", binary),
        bytes("log with a mark and Windows lines is fine", "\u{feff}t,v,i\r\n0,1,20\r\n1,1,30\r\n"),
        logged("log column of an unknown kind", "{time: {heading: t, unit: s}, colour: {heading: v}}")
            .library("ride.csv", sound),
        logged("log column in an unknown unit", "{time: {heading: t, unit: s}, speed: {heading: v, unit: knots}}")
            .library("ride.csv", sound),
        logged("log column as text", "{time: t, speed: v}").library("ride.csv", sound),
        logged("log columns are a list", "[t, v]").library("ride.csv", sound),
        logged("log column without a unit is fine, and asked for where it counts", "{time: {heading: t}}")
            .library("ride.csv", sound),
        case("log is a number", spec("cases: {ride: {kind: log, log: 12, columns: {time: {heading: t, unit: s}}}}")),
        case("log is a map", spec("cases: {ride: {kind: log, log: {a: 1}, columns: {time: {heading: t, unit: s}}}}")),
    ]
}
