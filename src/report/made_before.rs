//! Crosses of two plants on record, in the words of every list of pollinations.

/// `X22-05, perhaps X23-01`; `no` where there is none.
pub fn made_before_words(surely: &[String], perhaps: &[String]) -> String {
    let perhaps = perhaps.iter().map(|code| format!("perhaps {code}"));
    let made: Vec<String> = surely.iter().cloned().chain(perhaps).collect();
    match made.is_empty() {
        true => "no".to_owned(),
        false => made.join(", "),
    }
}
