//! Text of a spec stays text, in every layout.

use crate::lay_out;
use crate::tool::{FIBRES, dryfit, out, write};
use pulldown_cmark::{Event, Options, Parser, Tag};

const HOSTILE: &[(&str, &str)] = &[
    ("a tag", "<script>alert('x')</script>"),
    ("an entity", "&lt;b&gt;&#64;all &amp;"),
    ("codes for the terminal", "\\e[31mred\\e]0;title\\a\\u009b2J"),
    ("turned writing", "a\\u202egnp.exe\\u2066\\u061c\\u2069"),
    ("a table and code", "a|b `c` ``d`` | e"),
    ("links and mentions", "[x](https://example.org) ![y](z) @all #1 !2 https://example.org"),
    ("placeholders", "{0} {name} }}{{ %s ${PATH} ](1)"),
    ("ends of sections", "]]> --> */ </testsuites> </failure>"),
    ("lines", "a\\nb\\r\\nc\\td\\u2028e\\u0085f"),
    ("letters without a place in XML", "\\ufffe\\uffff\\u0001\\u000b"),
];

fn spec(name: &str) -> String {
    let concession =
        format!("concessions:\n  \"{name}\": {{rule: spring-travel-reserve, on: \"{name}\", reason: \"{name}\"}}\n");
    FIBRES
        .replace("{name: trial}", &format!("{{name: \"{name}\", revision: \"{name}\"}}"))
        .replace("wheel_on_axle", &format!("\"{name}\""))
        + &concession
}

/// Everything but spaces and line ends that commands a terminal, turns the writing or breaks a line.
fn commanding(text: &str) -> Vec<char> {
    let commands = |letter: &char| {
        (letter.is_control() && *letter != '\n')
            || matches!(letter, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}' | '\u{61c}' | '\u{2028}' | '\u{2029}')
    };
    text.chars().filter(commands).collect()
}

/// What a reader of Markdown would make of it that is not ours.
fn markup(text: &str) -> Vec<String> {
    let foreign = |event: &Event<'_>| {
        matches!(
            event,
            Event::Html(_) | Event::InlineHtml(_) | Event::Start(Tag::Link { .. } | Tag::Image { .. } | Tag::HtmlBlock)
        )
    };
    Parser::new_ext(text, Options::ENABLE_TABLES).filter(foreign).map(|event| format!("{event:?}")).collect()
}

/// Author's text outside code spans would show here.
fn plain_text(text: &str) -> String {
    let plain = |event| match event {
        Event::Text(text) => Some(text.to_string()),
        _ => None,
    };
    Parser::new_ext(text, Options::ENABLE_TABLES).filter_map(plain).collect()
}

#[test]
fn names_are_shown_and_never_obeyed() {
    for (what, name) in HOSTILE {
        let folder = tempfile::tempdir().unwrap();
        write(folder.path(), "a.machine.yaml", &spec(name));
        let laid = lay_out(folder.path(), &["a.machine.yaml"]);
        assert_eq!(laid.json[0]["findings"].as_array().unwrap().len(), 1, "{what}: {}", laid.line);
        for text in [&laid.terminal, &laid.line, &laid.sarif_text, &laid.junit_text, &laid.markdown] {
            assert!(commanding(text).is_empty(), "{what}: {:?} in\n{text}", commanding(text));
        }
        assert_eq!(laid.line.lines().count(), 1, "{what}: {}", laid.line);
        // Both were read back whole by `lay_out`; what was read is the name, not what it would mean.
        let cases = &laid.junit.test_suites[0].test_cases;
        assert_eq!((laid.junit.test_suites.len(), cases.len()), (1, 1), "{what}");
        let subject = laid.json[0]["findings"][0]["subject"].as_str().unwrap();
        let flat = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(flat(cases[0].name.as_str()).starts_with(&flat(subject)), "{what}: {}", cases[0].name.as_str());
        let message = laid.sarif["runs"][0]["results"][0]["message"]["text"].as_str().unwrap();
        assert!(!message.contains("]("), "{what}: {message}");
        let single = message.replace("{{", "").replace("}}", "");
        assert!(!single.contains(['{', '}']), "{what}: {message}");
        no_markup(what, name, &laid.markdown, 6);
        let compared = dryfit(folder.path(), &["compare", "--as", "markdown", "a.machine.yaml", "a.machine.yaml"], "");
        no_markup(what, name, &out(&compared), 0);
    }
}

fn no_markup(what: &str, name: &str, markdown: &str, columns: usize) {
    assert!(markdown.starts_with("**dryfit:** "), "{what}: {markdown}");
    assert!(markup(markdown).is_empty(), "{what}: {:?} in\n{markdown}", markup(markdown));
    let plain = plain_text(markdown);
    assert!(!plain.contains("@all") && !plain.contains("script") && !plain.contains("example.org"), "{what}: {plain}");
    let cells = Parser::new_ext(markdown, Options::ENABLE_TABLES)
        .filter(|event| matches!(event, Event::Start(Tag::TableCell)))
        .count();
    assert_eq!(cells, 2 * columns, "{name}: {markdown}");
}

#[test]
fn ten_thousand_letters_are_cut_where_a_person_reads() {
    let folder = tempfile::tempdir().unwrap();
    // A key is an implicit key of YAML, which may have 1,024 letters.
    let (key, name) = ("long ".repeat(200), "long ".repeat(2000));
    let spec = spec(&key).replace(&format!("name: \"{key}"), &format!("name: \"{name}"));
    write(folder.path(), "a.machine.yaml", &spec.replace(&format!("reason: \"{key}"), &format!("reason: \"{name}")));
    let laid = lay_out(folder.path(), &["a.machine.yaml"]);
    assert!(laid.line.len() < 2000 && laid.line.lines().count() == 1, "{}", laid.line.len());
    assert!(laid.markdown.len() < 2000, "{}", laid.markdown.len());
    assert!(laid.junit_text.len() < 6000, "{}", laid.junit_text.len());
    let headline = laid.terminal.lines().take(3).all(|line| line.chars().count() <= 100);
    assert!(headline, "{}", laid.terminal);
    let report = &laid.json[0];
    let whole = [&report["findings"][0]["subject"], &report["machine"]].map(|text| text.as_str().unwrap().len());
    assert_eq!(whole, [key.len(), name.len()], "data are whole");
}
