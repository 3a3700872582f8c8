//! `dryfit circuit`: the coolant on its way round.

use crate::args::{Circuit, Page};
use crate::{UNUSABLE, load, load::Book, output, sink};
use engine::profiles;
use machine::Machine;

pub fn circuit(args: &Circuit) -> u8 {
    let way = &args.way;
    let Ok(today) = load::today(way.today.as_deref()) else { return UNUSABLE };
    // No rule is asked: the spec only has to be read.
    let Some(read) = load::judged(&args.spec, &way.named, Book::NONE, today) else { return UNUSABLE };
    let Some((machine, _)) = &read.outcome else { return UNUSABLE };
    if machine.cooling.circuit.is_empty() {
        output::complain("this machine has no coolant circuit: `cooling.circuit` lists it in flow order");
        return UNUSABLE;
    }
    let profiles = profiles(machine, args.case.as_deref());
    if let (true, Some(case)) = (profiles.is_empty(), &args.case) {
        output::complain(&no_case(machine, case));
        return UNUSABLE;
    }
    let text = match args.layout {
        Page::Json => {
            output::json(serde_json::to_string_pretty(&render::circuit::page(&read.document, machine, &profiles)))
        }
        Page::Terminal => {
            let look = output::look(way.out.as_deref());
            render::circuit::terminal(&read.document, machine, &profiles, look)
        }
    };
    sink::deliver(way.out.as_deref(), &text)
}

fn no_case(machine: &Machine, name: &str) -> String {
    let near = document::nearest(name, machine.cases.iter().map(|case| case.key.name.as_str()));
    let hint = near.map_or_else(|| "`cases` lists them".to_owned(), |near| format!("did you mean `{near}`?"));
    format!("no case is called `{}`; {hint}", render::clean(name))
}
