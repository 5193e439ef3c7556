//! In which column each plant stands.
//!
//! A plant stands right of all its parents, at least as far as its generation says; a plant without recorded parents is
//! drawn just before its first cross, so that a species used late does not trail a line across the whole picture.

use crate::report::pedigree::{DrawnCross, PedigreeDrawing};

/// Columns of plants and crosses. A cross's column is that of its first child: its mark stands in the gap before it.
pub struct Columns {
    /// By row of the plant.
    pub plants: Vec<usize>,
    /// By row of the cross.
    pub crosses: Vec<usize>,
    /// How many columns there are.
    pub count: usize,
}

impl Columns {
    /// Columns for every plant and cross of the drawing.
    pub fn of(drawing: &PedigreeDrawing) -> Columns {
        let mut plants = generations(drawing);
        draw_founders_near(drawing, &mut plants);
        close_up(drawing, &mut plants);
        let crosses: Vec<usize> = drawing
            .crosses
            .iter()
            .map(|cross| column_of(cross, &plants))
            .collect();
        let count = plants
            .iter()
            .chain(&crosses)
            .max()
            .map_or(0, |last| last + 1);
        spread_unbred(drawing, &mut plants, count);
        Columns {
            plants,
            crosses,
            count,
        }
    }
}

/// Rows of the plants that may be parents of a cross.
pub fn parents(cross: &DrawnCross) -> impl Iterator<Item = usize> {
    cross.seed.rows().iter().chain(cross.pollen.rows()).copied()
}

fn column_of(cross: &DrawnCross, plants: &[usize]) -> usize {
    let after = parents(cross).map(|row| plants[row] + 1).max().unwrap_or(1);
    let first = cross
        .children
        .iter()
        .map(|&row| plants[row])
        .min()
        .unwrap_or(after);
    first.max(1)
}

/// Longest way from a founder, taking crosses whose parents are all placed; a loop keeps the generations it came with.
fn generations(drawing: &PedigreeDrawing) -> Vec<usize> {
    let mut column: Vec<usize> = drawing.plants.iter().map(|plant| plant.column).collect();
    let mut missing = vec![0usize; drawing.plants.len()];
    let mut used_in = vec![Vec::new(); drawing.plants.len()];
    for (row, cross) in drawing.crosses.iter().enumerate() {
        cross.children.iter().for_each(|&child| missing[child] += 1);
        parents(cross).for_each(|parent| used_in[parent].push(row));
    }
    let mut waiting: Vec<usize> = drawing
        .crosses
        .iter()
        .map(|cross| parents(cross).count())
        .collect();
    let bare = (0..waiting.len()).filter(|&row| waiting[row] == 0);
    let mut ready: Vec<usize> = bare.collect();
    let mut placed: Vec<usize> = (0..missing.len())
        .filter(|&row| missing[row] == 0)
        .collect();
    while !ready.is_empty() || !placed.is_empty() {
        while let Some(plant) = placed.pop() {
            for &row in &used_in[plant] {
                waiting[row] -= 1;
                if waiting[row] == 0 {
                    ready.push(row);
                }
            }
        }
        let Some(row) = ready.pop() else { break };
        let cross = &drawing.crosses[row];
        let least = parents(cross)
            .map(|parent| column[parent] + 1)
            .max()
            .unwrap_or(1);
        for &child in &cross.children {
            column[child] = column[child].max(least);
            missing[child] -= 1;
            if missing[child] == 0 {
                placed.push(child);
            }
        }
    }
    column
}

fn draw_founders_near(drawing: &PedigreeDrawing, column: &mut [usize]) {
    let mut first = vec![usize::MAX; column.len()];
    let mut raised = vec![false; column.len()];
    for cross in &drawing.crosses {
        let before = column_of(cross, column) - 1;
        parents(cross).for_each(|parent| first[parent] = first[parent].min(before));
        cross
            .children
            .iter()
            .for_each(|&child| raised[child] = true);
    }
    for row in 0..column.len() {
        if !raised[row] && first[row] != usize::MAX {
            column[row] = column[row].max(first[row]);
        }
    }
}

/// Founders not bred from belong to no generation: they stand in rows over all columns.
fn spread_unbred(drawing: &PedigreeDrawing, column: &mut [usize], count: usize) {
    let mut bred = vec![false; column.len()];
    for cross in &drawing.crosses {
        parents(cross)
            .chain(cross.children.iter().copied())
            .for_each(|row| bred[row] = true);
    }
    for (rank, row) in (0..column.len()).filter(|&row| !bred[row]).enumerate() {
        column[row] = rank % count.clamp(1, 7);
    }
}

/// Leaves out columns in which nothing stands: neither a plant, nor the unknown parents of a cross of which none is known.
fn close_up(drawing: &PedigreeDrawing, column: &mut [usize]) {
    let bare = drawing.crosses.iter();
    let bare = bare.filter(|cross| parents(cross).next().is_none());
    let mut used: Vec<usize> = bare.map(|cross| column_of(cross, column) - 1).collect();
    used.extend_from_slice(column);
    used.sort_unstable();
    used.dedup();
    for place in column.iter_mut() {
        *place = used.binary_search(place).unwrap_or(0);
    }
}
