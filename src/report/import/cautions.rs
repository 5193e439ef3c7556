//! What a grower may want to look at before rows come in.

use crate::analysis::import::{ColumnTaken, Doubt, Import, ImportRow, ImportTable, Kind, Who, Why};
use crate::record::{Choose, Holds, RowClass};
use crate::wording::{counted, each_once, first_of, joined, listed};

/// Codes named in one line.
const NAMED: usize = 6;

/// One line each.
pub(super) fn cautions(import: &Import) -> Vec<String> {
    let columns = || import.tables.iter().flat_map(|table| &table.columns);
    let dates = columns().filter(|column| is_open(import, column));
    let of_no_trait = columns().filter(|of| of.holds == Holds::Reading && of.of_trait.is_none());
    let mut cautions: Vec<String> = not_read(import).into_iter().collect();
    cautions.extend(dates.filter_map(order_of_dates));
    cautions.extend(columns().filter_map(codes_twice));
    cautions.extend(by_species(import));
    cautions.extend(looks_like(import));
    cautions.extend(of_no_trait.map(no_trait));
    let marked = counted_in(columns(), |of| of.dittos);
    cautions.extend(
        marked.map(|marked| format!("Ditto marks are read as the cell right above them: {marked}")),
    );
    cautions.extend(from_own_sheet(import));
    cautions.extend(by_parents(import));
    cautions.extend((0..import.tables.len()).filter_map(|table| of_one_cross(import, table)));
    cautions.extend(remarks_lost(import));
    cautions.extend(import.tables.iter().filter_map(colours));
    cautions.extend(import.tables.iter().filter_map(struck_through));
    cautions.extend(of_workbooks(import));
    cautions.extend(import.tables.iter().filter_map(nothing_known));
    cautions
}

/// Columns of which nothing is known; those of podbook's own sheet are worked out again.
fn not_read(import: &Import) -> Option<String> {
    let foreign = import.tables.iter().filter(|table| !table.is_own_sheet);
    let unread = foreign.flat_map(|table| &table.columns);
    let unread = unread.filter(|of| of.holds == Holds::NotRead && of.filled > 0);
    let unread: Vec<&str> = unread.map(|of| of.heading.as_str()).collect();
    (!unread.is_empty()).then(|| {
        format!(
            "Columns not read, their cells only kept in the notes: {}. Name what one holds in import.ron",
            listed(&unread)
        )
    })
}

fn no_trait(column: &ColumnTaken) -> String {
    format!(
        "Column `{}` is to hold readings, and its heading names no trait of registry.ron, so none is taken in: head it with the name of one",
        column.heading
    )
}

fn from_own_sheet(import: &Import) -> Option<String> {
    let is_of_sheet = |(_, row): (usize, &ImportRow)| import.tables[row.table].is_own_sheet;
    import.coming().any(is_of_sheet).then(|| {
        "This is a sheet that `podbook export plants` wrote. It has no parents, pods, sowings, opinions, earlier readings or pieces, so those do not come; to bring a whole registry in: podbook merge".to_owned()
    })
}

/// What of workbooks is not looked at; the colours of one kind are counted.
fn of_workbooks(import: &Import) -> Option<String> {
    let has = |mark: &str| import.tables.iter().any(|table| table.name.contains(mark));
    let unlooked = match has(".ods/") {
        true => "Colours, words struck through, comments and pictures",
        false => "Comments and pictures",
    };
    has("/").then(|| {
        format!("{unlooked} of a workbook are not read: write what they say into a column")
    })
}

fn nothing_known(table: &ImportTable) -> Option<String> {
    let is_unread = table.columns.iter().all(|of| of.holds == Holds::NotRead);
    is_unread.then(|| {
        format!(
            "{} has no column that podbook knows. Name what a column holds in import.ron",
            table.name
        )
    })
}

/// Rows without a code that may be on record: a whole table of them, where it got a column or another name.
fn looks_like(import: &Import) -> Option<String> {
    let doubts = import.rows.iter().flat_map(|row| &row.doubts);
    let codes = doubts.filter_map(|doubt| match &doubt.why {
        Why::LooksLike(code) => Some(code.as_str()),
        _ => None,
    });
    let codes: Vec<&str> = codes.collect();
    (!codes.is_empty()).then(|| {
        format!(
            "{} rows that were brought in before and are not there any more ({}): write these codes in a column `Code`, or take the rows that are new",
            counted(codes.len(), "row without a code looks like", "rows without a code look like"),
            first_of(&codes, NAMED)
        )
    })
}

/// Plants for which a cross is begun.
fn by_parents(import: &Import) -> Option<String> {
    let coming = import.coming().map(|(_, row)| row);
    let plants: Vec<&ImportRow> = coming
        .filter(|row| matches!(row.kind, Kind::SeedlingOf(_)))
        .collect();
    let codes = plants.iter().filter_map(|row| row.facts.code.as_deref());
    let codes: Vec<&str> = codes.collect();
    let named = match codes[..] {
        [] => String::new(),
        _ => format!(" ({})", first_of(&codes, NAMED)),
    };
    (!plants.is_empty()).then(|| {
        format!(
            "{} named by parents and no cross{named}: a cross is begun for each pair, and a code of your own stays as nickname",
            counted(plants.len(), "plant is", "plants are")
        )
    })
}

/// A table of one cross, whose seedlings do not say so: they would be plants that came from elsewhere.
fn of_one_cross(import: &Import, table: usize) -> Option<String> {
    let ImportTable { name, titled, .. } = &import.tables[table];
    let titled = titled.as_ref()?;
    let bare = |(_, row): (usize, &ImportRow)| {
        row.table == table && row.kind == Kind::Founder && row.facts.label.is_none()
    };
    import.coming().any(bare).then(|| {
        format!(
            "{name} is named or titled {titled}, and its rows come in as plants of their own. If they are seedlings of that cross, add a column `Cross` with {titled} in each row"
        )
    })
}

/// Remarks of rows about seed that nothing is taken from.
fn remarks_lost(import: &Import) -> Option<String> {
    let lost = |row: &&ImportRow| {
        let stays = !row.comes && row.class == RowClass::Differs;
        stays && matches!(row.kind, Kind::SeedOf(_)) && !row.remarks.is_empty()
    };
    let rows = import.rows.iter().filter(lost);
    let rows = rows.map(|row| format!("{}:{}", import.tables[row.table].name, row.line));
    let rows: Vec<String> = rows.collect();
    (!rows.is_empty()).then(|| {
        format!(
            "Remarks of rows that are not taken in are not recorded: {}. Write them on the page of the cross",
            first_of(&rows, NAMED)
        )
    })
}

/// A column of codes is not read where some come twice, and every code in it would be lost in silence.
fn codes_twice(column: &ColumnTaken) -> Option<String> {
    let twice = &column.twice;
    (!twice.is_empty()).then(|| {
        format!(
            "Column `{}` looks like codes and is not read, because {} {} more than once. If they are your codes, say in import.ron that it holds code",
            column.heading,
            first_of(twice, NAMED),
            if twice.len() == 1 { "comes" } else { "come" }
        )
    })
}

/// Parents named by a species that were taken for a plant: the grower may never have meant that plant.
fn by_species(import: &Import) -> Option<String> {
    let plant = |who: &Who| match who {
        Who::OnRecord(code) | Who::Species(code) => code.clone(),
        Who::Row(at) => {
            let row = &import.rows[*at];
            let place = || format!("{}, row {}", import.tables[row.table].name, row.line);
            row.facts.code.clone().unwrap_or_else(place)
        }
    };
    let doubts = import.coming().flat_map(|(_, row)| &row.doubts);
    let taken = doubts.filter(|of| of.chosen == Choose::Take);
    let plants = taken.filter_map(|of| match &of.why {
        Why::BySpecies(who) => Some(plant(who)),
        _ => None,
    });
    let plants: Vec<String> = plants.collect();
    (!plants.is_empty()).then(|| {
        format!(
            "{} named only by species {} taken for your one plant of that name: {}. To leave them as species: --choose parent_by_species=species",
            counted(plants.len(), "parent", "parents"),
            if plants.len() == 1 { "is" } else { "are" },
            first_of(&each_once(&plants), NAMED)
        )
    })
}

/// Colours mean something to whoever put them there, and the records have no room for them.
fn colours(table: &ImportTable) -> Option<String> {
    let columns = counted_in(&table.columns, |of| of.coloured)?;
    Some(format!(
        "{}: cells filled with a colour, which is not read: {columns}. Write what the colour means in a column",
        table.name
    ))
}

/// So does a line through the words of a row, which is read as any other: often the plant is dead.
fn struck_through(table: &ImportTable) -> Option<String> {
    let count = table.struck.len();
    (count > 0).then(|| {
        format!(
            "{}: {} words struck through, which is not read: {} {}. Write what it means in a column",
            table.name,
            counted(count, "row has", "rows have"),
            if count == 1 { "row" } else { "rows" },
            first_of(&table.struck, NAMED)
        )
    })
}

/// Columns with the number of cells that something is true of: ``3 in `Sown` and 2 in `Size` ``; `None` where it is of none.
fn counted_in<'c>(
    columns: impl IntoIterator<Item = &'c ColumnTaken>,
    cells: impl Fn(&ColumnTaken) -> usize,
) -> Option<String> {
    let columns = columns.into_iter().map(|of| (cells(of), &of.heading));
    let columns = columns.filter(|(cells, _)| *cells > 0);
    let words = columns.map(|(cells, heading)| format!("{cells} in `{heading}`"));
    Some(listed(words)).filter(|words| !words.is_empty())
}

/// Whether dates of a column are left as one of two days.
fn is_open(import: &Import, column: &ColumnTaken) -> bool {
    let open = |doubt: &Doubt| {
        let of_column = doubt.class == RowClass::DateTwoWays && doubt.column == column.heading;
        of_column && doubt.chosen == Choose::Take
    };
    import.rows.iter().flat_map(|row| &row.doubts).any(open)
}

/// What the other dates of a column say of its order.
fn order_of_dates(column: &ColumnTaken) -> Option<String> {
    let orders = column.orders?;
    let heading = &column.heading;
    // Dates with the year in full show an order only to short ones that may begin with theirs.
    let year_first = match orders.may_begin_with_year {
        0 => 0,
        _ => orders.year_first,
    };
    let all = [
        (orders.day_first, "day"),
        (orders.month_first, "month"),
        (year_first, "year"),
    ];
    let seen: Vec<(usize, &str)> = all.into_iter().filter(|(sure, _)| *sure > 0).collect();
    let words = |(sure, order): &(usize, &str)| {
        let dates = counted(*sure, "date can be read", "dates can be read");
        format!("{dates} only {order} first")
    };
    match &seen[..] {
        [] => None,
        [one] => Some(format!(
            "Column `{heading}`: {}, and none only the other way. To read all of them so: --choose date_two_ways={}_first",
            words(one),
            one.1
        )),
        [rest @ .., last] => Some(format!(
            "Column `{heading}` mixes the orders: {} and {}. Choose row by row",
            joined(rest.iter().map(words), ", "),
            words(last)
        )),
    }
}
