//! Texts that have harmed a terminal, a spreadsheet, a picture or a page before, and how each is to be seen.

/// What is recorded, and what a person sees of it, written out by hand.
pub const PAYLOADS: [(&str, &str); 61] = [
    same("<script>alert(1)</script>"),
    same("\"><img src=x onerror=alert(1)>"),
    same("' onmouseover='alert(1)"),
    same("\"double\" 'single'"),
    same("back\\slash \\\\ \\n \\\""),
    same("\\N \\G \\E \\L \\l \\r"),
    ("\u{1b}[31mred", "␛[31mred"),
    (
        "\u{1b}]8;;file:x\u{1b}\\link\u{1b}]8;;\u{1b}\\",
        "␛]8;;file:x␛\\link␛]8;;␛\\",
    ),
    ("\u{9b}31mred", "�31mred"),
    ("\u{9d}0;title\u{9c}", "�0;title�"),
    ("nul\0here", "nul␀here"),
    ("\u{8}\u{8}gone", "␈␈gone"),
    ("\u{7f}delete", "␡delete"),
    ("\u{202e}reversed", "�reversed"),
    ("\u{202d}forced", "�forced"),
    ("\u{2066}\u{2067}\u{2068}isolates", "���isolates"),
    ("\u{200f}\u{200e}\u{61c}marks", "���marks"),
    ("\u{202a}\u{202b}embedded\u{202c}", "��embedded�"),
    same("]]>"),
    same("--><!--"),
    same("<![CDATA[x]]>"),
    same("<!DOCTYPE x [<!ENTITY y 'z'>]>&y;"),
    same("&amp;&#0;&bogus;"),
    same("%PDF-1.7 %%EOF"),
    same("=cmd|'/C calc'!A0"),
    same("@SUM(1+1)"),
    same("+1+cmd"),
    same("-2+3"),
    same("-3.5"),
    ("\t=1+1", " =1+1"),
    ("\r=1+1", " =1+1"),
    ("line\nbreak", "line break"),
    ("line\r\nbreak", "line  break"),
    ("\u{2028}\u{2029}separators", "��separators"),
    (
        "zero\u{200b}width\u{200d}joined\u{200c}not\u{2060}",
        "zero�width�joined�not�",
    ),
    ("\u{e0001}\u{e0041}\u{e007f}tags", "���tags"),
    ("\u{301}lone mark", "◌\u{301}lone mark"),
    same("e\u{301}\u{323} with marks"),
    same(LONG),
    same("🌱🪴 emoji ❤\u{fe0f} 1\u{fe0f}\u{20e3}"),
    ("👩\u{200d}🌾 joined emoji", "👩�🌾 joined emoji"),
    same("[text](javascript:alert(1))"),
    same("![alt](x.png)"),
    same("`code` ```fence"),
    same("**bold** _slanted_ ~~gone~~"),
    same("# heading"),
    same("| a | b |"),
    same("<b>bold</b><br/>"),
    same("node:port:n -> {x} [y=z];"),
    same("https://example.invalid www.example.invalid"),
    same("＝1+1"),
    ("\u{feff}mark of order", "�mark of order"),
    ("\u{ad}soft\u{34f}joined", "�soft�joined"),
    ("\u{fff9}annotated\u{fffb}", "�annotated�"),
    ("\u{fffe}\u{ffff}\u{fdd0}nothing", "���nothing"),
    ("\u{3164}\u{ffa0}\u{115f}fillers", "���fillers"),
    ("x\u{e0100}\u{fe00}varied", "x��varied"),
    same("../../up"),
    same("%s%n {} {0} ${x}"),
    same("שלום 12"),
    same(" ;=1+1"),
];

/// One word of two thousand letters.
const LONG: &str = {
    const LETTERS: [u8; 2000] = [b'w'; 2000];
    match std::str::from_utf8(&LETTERS) {
        Ok(text) => text,
        Err(_) => "",
    }
};

const fn same(text: &str) -> (&str, &str) {
    (text, text)
}

/// The text recorded for a payload: it stands first, and a mark behind it tells which one it is.
pub fn recorded(at: usize) -> String {
    format!("{} m{at:02}", PAYLOADS[at].0)
}

/// What a person is to see of it.
pub fn seen(at: usize) -> String {
    format!("{} m{at:02}", PAYLOADS[at].1)
}

/// A text without blanks, since lines are folded at them.
pub fn tight(text: &str) -> String {
    text.split_whitespace().collect()
}

/// A character that must not stand in any output as it is; written down by range, apart from the program's own list.
pub fn is_raw(letter: char) -> bool {
    const RANGES: [(u32, u32); 22] = [
        (0x00, 0x1f),
        (0x7f, 0x9f),
        (0xad, 0xad),
        (0x34f, 0x34f),
        (0x61c, 0x61c),
        (0x115f, 0x1160),
        (0x17b4, 0x17b5),
        (0x180b, 0x180f),
        (0x200b, 0x200f),
        (0x2028, 0x202e),
        (0x2060, 0x206f),
        (0x3164, 0x3164),
        (0xfdd0, 0xfdef),
        (0xfe00, 0xfe0d),
        (0xfeff, 0xfeff),
        (0xffa0, 0xffa0),
        (0xfff9, 0xfffb),
        (0xfffe, 0xffff),
        (0x1bca0, 0x1bca3),
        (0x1d173, 0x1d17a),
        (0xe0000, 0xe0fff),
        (0x10fffe, 0x10ffff),
    ];
    let code = letter as u32;
    RANGES
        .iter()
        .any(|(first, last)| (*first..=*last).contains(&code))
}
