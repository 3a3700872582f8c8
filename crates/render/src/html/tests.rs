use super::Html;
use crate::{Layout, Reviewed};

#[test]
fn a_page_has_a_beginning_and_an_end_and_a_file_name_is_never_markup() {
    let mut page = Html::default();
    let reviewed = Reviewed::unreadable("<script>alert(1)</script>.machine.yaml", "it does not exist");
    let text = page.begin() + &page.spec(&reviewed) + &page.end(2);
    assert!(text.starts_with("<!DOCTYPE html><html lang=\"en\">") && text.ends_with("</body></html>\n"));
    assert!(!text.contains("<script") && text.contains("&lt;script&gt;"), "{text}");
    assert!(text.contains("it does not exist"));
}
