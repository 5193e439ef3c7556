//! Dates as growers write them, as ranges of days. Seasons of three whole months and thirds of a year are common
//! practice; the leap rule is that of the Gregorian calendar.

use podbook::record::{Day, Hemisphere, When, WhenFault};

/// The days a text can mean, as `first..last`; `*` for an open end.
pub fn days(text: &str, hemisphere: Hemisphere) -> String {
    match When::read(text, hemisphere) {
        Ok(when) => {
            let end = |day: Day, open: Day| {
                if day == open {
                    "*".to_owned()
                } else {
                    day.to_string()
                }
            };
            format!(
                "{}..{}",
                end(when.first, Day::FIRST),
                end(when.last, Day::LAST)
            )
        }
        Err(fault) => format!("{fault:?}"),
    }
}

fn north(text: &str) -> String {
    days(text, Hemisphere::North)
}

fn south(text: &str) -> String {
    days(text, Hemisphere::South)
}

#[test]
fn years_months_and_days() {
    for (text, expected) in [
        ("2021", "2021-01-01..2021-12-31"),
        ("2021-10", "2021-10-01..2021-10-31"),
        ("2021/10", "2021-10-01..2021-10-31"),
        ("10.2021", "2021-10-01..2021-10-31"),
        ("2021-04", "2021-04-01..2021-04-30"),
        ("2021-12", "2021-12-01..2021-12-31"),
        ("2021-10-05", "2021-10-05..2021-10-05"),
        ("2021-10-5", "2021-10-05..2021-10-05"),
        ("2021/10/05", "2021-10-05..2021-10-05"),
        ("2021.10.05", "2021-10-05..2021-10-05"),
        ("2021 Oct 5", "2021-10-05..2021-10-05"),
        ("Oct 2021", "2021-10-01..2021-10-31"),
        ("october 2021", "2021-10-01..2021-10-31"),
        ("Oct. 2021", "2021-10-01..2021-10-31"),
        ("Sept 2021", "2021-09-01..2021-09-30"),
        ("2021-Oct", "2021-10-01..2021-10-31"),
        ("5 Oct 2021", "2021-10-05..2021-10-05"),
        ("05 OCT 2021", "2021-10-05..2021-10-05"),
        ("5-Oct-2021", "2021-10-05..2021-10-05"),
        ("5th October 2021", "2021-10-05..2021-10-05"),
        ("Oct 5, 2021", "2021-10-05..2021-10-05"),
        ("May 3rd 2021", "2021-05-03..2021-05-03"),
        ("  2021-10-05 ", "2021-10-05..2021-10-05"),
        ("5\u{a0}Oct\u{a0}2021", "2021-10-05..2021-10-05"),
        ("5  Oct\t2021", "2021-10-05..2021-10-05"),
    ] {
        assert_eq!(north(text), expected, "{text}");
    }
}

#[test]
fn leap_days() {
    for (text, expected) in [
        ("2024-02", "2024-02-01..2024-02-29"),
        ("2023-02", "2023-02-01..2023-02-28"),
        ("2000-02", "2000-02-01..2000-02-29"),
        ("1900-02", "1900-02-01..1900-02-28"),
        ("2024-02-29", "2024-02-29..2024-02-29"),
        ("2023-02-29", "NoSuchDay"),
        ("29 Feb 2100", "NoSuchDay"),
        ("winter 2023/24", "2023-12-01..2024-02-29"),
        ("winter 2022/23", "2022-12-01..2023-02-28"),
        ("late Feb 2024", "2024-02-21..2024-02-29"),
        ("late Feb 2023", "2023-02-21..2023-02-28"),
    ] {
        assert_eq!(north(text), expected, "{text}");
    }
}

#[test]
fn seasons_by_hemisphere() {
    for (text, in_north, in_south) in [
        (
            "spring 2021",
            "2021-03-01..2021-05-31",
            "2021-09-01..2021-11-30",
        ),
        (
            "Spring 2021",
            "2021-03-01..2021-05-31",
            "2021-09-01..2021-11-30",
        ),
        (
            "autumn 2021",
            "2021-09-01..2021-11-30",
            "2021-03-01..2021-05-31",
        ),
        (
            "fall 2021",
            "2021-09-01..2021-11-30",
            "2021-03-01..2021-05-31",
        ),
        (
            "summer 2021",
            "2021-06-01..2021-08-31",
            "2020-12-01..2022-02-28",
        ),
        (
            "winter 2021",
            "2020-12-01..2022-02-28",
            "2021-06-01..2021-08-31",
        ),
        ("winter 2020/21", "2020-12-01..2021-02-28", "NotADate"),
        ("winter 2020-21", "2020-12-01..2021-02-28", "NotADate"),
        ("winter 2020/2021", "2020-12-01..2021-02-28", "NotADate"),
        ("summer 2020/21", "NotADate", "2020-12-01..2021-02-28"),
        ("winter 1999/00", "1999-12-01..2000-02-29", "NotADate"),
        ("winter 2020/22", "NotADate", "NotADate"),
        ("winter 2020/20", "NotADate", "NotADate"),
        ("spring 2020/21", "NotADate", "NotADate"),
    ] {
        assert_eq!(north(text), in_north, "{text} in the north");
        assert_eq!(south(text), in_south, "{text} in the south");
    }
}

#[test]
fn early_mid_and_late() {
    for (text, expected) in [
        ("early 2019", "2019-01-01..2019-04-30"),
        ("mid 2019", "2019-05-01..2019-08-31"),
        ("mid-2019", "2019-05-01..2019-08-31"),
        ("late 2019", "2019-09-01..2019-12-31"),
        ("early Oct 2021", "2021-10-01..2021-10-10"),
        ("mid 2021-10", "2021-10-11..2021-10-20"),
        ("Late October 2021", "2021-10-21..2021-10-31"),
        ("early spring 2021", "2021-03-01..2021-03-31"),
        ("mid spring 2021", "2021-04-01..2021-04-30"),
        ("late spring 2021", "2021-05-01..2021-05-31"),
        ("early winter 2020/21", "2020-12-01..2020-12-31"),
        ("mid winter 2020/21", "2021-01-01..2021-01-31"),
        ("late winter 2020/21", "2021-02-01..2021-02-28"),
        // Which winter is not said: both, and all that lies between.
        ("late winter 2020", "2020-02-01..2021-02-28"),
        ("early 5 Oct 2021", "NotADate"),
        ("early late 2021", "NotADate"),
    ] {
        assert_eq!(north(text), expected, "{text}");
    }
    assert_eq!(south("late spring 2021"), "2021-11-01..2021-11-30");
    assert_eq!(south("late summer 2020/21"), "2021-02-01..2021-02-28");
}

#[test]
fn the_thirds_of_a_year_and_of_a_month_leave_no_day_out() {
    for whole in [
        "2023",
        "2024",
        "2024-02",
        "2023-02",
        "2021-10",
        "spring 2021",
        "winter 2023/24",
    ] {
        let when = |text: String| When::read(&text, Hemisphere::North).expect("a date");
        let (early, mid, late) = (
            when(format!("early {whole}")),
            when(format!("mid {whole}")),
            when(format!("late {whole}")),
        );
        let whole = when(whole.to_owned());
        assert_eq!(early.first, whole.first);
        assert_eq!(mid.first.0, early.last.0 + 1);
        assert_eq!(late.first.0, mid.last.0 + 1);
        assert_eq!(late.last, whole.last);
    }
}

#[test]
fn open_ends_and_ranges() {
    for (text, expected) in [
        ("by 2021-10", "*..2021-10-31"),
        ("by 5 Oct 2021", "*..2021-10-05"),
        ("before 2021", "*..2021-12-31"),
        ("after 2021-10", "2021-10-01..*"),
        ("after spring 2021", "2021-03-01..*"),
        ("by late 2019", "*..2019-12-31"),
        ("2021-03 to 2021-05", "2021-03-01..2021-05-31"),
        ("2021-03..2021-05", "2021-03-01..2021-05-31"),
        ("2021-03 – 2021-05", "2021-03-01..2021-05-31"),
        ("2021–2022", "2021-01-01..2022-12-31"),
        ("late 2019 to spring 2020", "2019-09-01..2020-05-31"),
        ("2021-03-02 to 2021-03-02", "2021-03-02..2021-03-02"),
        // Overlapping ends are no reversed range.
        ("2021-03 to 2021-03-15", "2021-03-01..2021-03-15"),
        ("after 2019 to 2021", "2019-01-01..2021-12-31"),
        ("2021-05 to 2021-03", "RangeReversed"),
        ("2022 to by 2021", "RangeReversed"),
        ("?", "*..*"),
        ("unknown", "*..*"),
    ] {
        assert_eq!(north(text), expected, "{text}");
    }
}

#[test]
fn numbers_alone_are_read_only_when_their_order_is_clear() {
    let day = |year, month, day| Day::new(year, month, day).expect("a day of the calendar");
    for text in ["5/10/2021", "05.10.2021", "5-10-2021", "5 10 2021"] {
        assert_eq!(
            When::read(text, Hemisphere::North),
            Err(WhenFault::OrderUnclear {
                day_first: day(2021, 10, 5),
                month_first: day(2021, 5, 10)
            }),
            "{text}"
        );
    }
    for (text, expected) in [
        ("25.10.2021", "2021-10-25..2021-10-25"),
        ("10/25/2021", "2021-10-25..2021-10-25"),
        ("5/5/2021", "2021-05-05..2021-05-05"),
        ("31/31/2021", "NoSuchDay"),
        ("30.02.2021", "NoSuchDay"),
        ("5/10/21", "NotADate"),
    ] {
        assert_eq!(north(text), expected, "{text}");
    }
}

#[test]
fn order_is_wrong_only_when_no_reading_saves_it() {
    let when = |text| When::read(text, Hemisphere::North).expect("a date");
    assert!(when("2021-03").surely_before(when("2021-04")));
    assert!(!when("2021-03").surely_before(when("2021-03-31")));
    assert!(!when("2021").surely_before(when("2021-03")));
    assert!(!when("by 2021").surely_before(when("2021-12-31")));
    assert!(when("by 2021").surely_before(when("after 2022")));
    assert!(!when("?").surely_before(when("2021")));
    assert!(!when("2021").surely_before(when("?")));
}

#[test]
fn days_between_dates_are_a_range() {
    let when = |text| When::read(text, Hemisphere::North).expect("a date");
    // Counted on a calendar: spring 2021 to 5 September 2021 is 97 days at least and 188 at most.
    assert_eq!(
        when("spring 2021").days_until(when("2021-09-05")),
        Some((97, 188))
    );
    assert_eq!(
        when("2021-09-05").days_until(when("2021-10")),
        Some((26, 56))
    );
    assert_eq!(
        when("2021-09-05").days_until(when("2021-09-05")),
        Some((0, 0))
    );
    assert_eq!(
        when("2021-09-05").days_until(when("2021-09-01")),
        Some((-4, -4))
    );
    assert_eq!(when("by 2021").days_until(when("2022")), None);
    assert_eq!(when("2021").days_until(when("after 2022")), None);
}

#[test]
fn a_day_is_written_as_it_is_read() {
    for text in [
        "1700-01-01",
        "1999-12-31",
        "2000-02-29",
        "2021-10-05",
        "2999-12-31",
    ] {
        let when = When::read(text, Hemisphere::North).expect("a date");
        assert!(when.is_exact());
        assert_eq!(when.first.to_string(), text);
    }
    assert_eq!(Day::FIRST.to_string(), "?");
    assert!(!When::UNKNOWN.is_exact());
    assert!(!When::UNKNOWN.is_bounded());
}
