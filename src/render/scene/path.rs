//! Outlines: moves, lines and cubic curves, and the few figures pictures are made of.

/// Points in a millimetre: 72 to the inch of 25.4 mm.
pub const POINTS: f64 = 72.0 / 25.4;

/// One step of an outline; coordinates in points, y downward.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Step {
    /// Lift the pen and go there.
    Move(f64, f64),
    /// A straight line to there.
    Line(f64, f64),
    /// A cubic curve: two control points, then the end.
    Curve([f64; 6]),
    /// Back to the last move.
    Close,
}

/// An outline of one or several strokes.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Path(pub Vec<Step>);

impl Path {
    /// A straight line.
    pub fn line(from: (f64, f64), to: (f64, f64)) -> Path {
        Path(vec![Step::Move(from.0, from.1), Step::Line(to.0, to.1)])
    }

    /// A line through several places; no places give an empty outline.
    pub fn polyline(places: &[(f64, f64)]) -> Path {
        let step = |(rank, place): (usize, &(f64, f64))| match rank {
            0 => Step::Move(place.0, place.1),
            _ => Step::Line(place.0, place.1),
        };
        Path(places.iter().enumerate().map(step).collect())
    }

    /// A smooth line that leaves `from` and reaches `to` level, as a tendril does.
    pub fn tendril(from: (f64, f64), to: (f64, f64)) -> Path {
        let mut path = Path(vec![Step::Move(from.0, from.1)]);
        path.tendril_to(from, to);
        path
    }

    /// Goes on from `from`, where the pen stands, to `to`, leaving and arriving level.
    pub fn tendril_to(&mut self, from: (f64, f64), to: (f64, f64)) {
        if (from.1 - to.1).abs() < 0.005 {
            self.0.push(Step::Line(to.0, to.1));
        } else {
            let middle = (from.0 + to.0) / 2.0;
            self.0
                .push(Step::Curve([middle, from.1, middle, to.1, to.0, to.1]));
        }
    }

    /// The same so many points further right and down.
    pub fn moved(self, (right, down): (f64, f64)) -> Path {
        self.mapped(|(x, y)| (x + right, y + down))
    }

    /// The same so many times as large, from the upper left corner.
    pub fn scaled(self, by: f64) -> Path {
        self.mapped(|(x, y)| (x * by, y * by))
    }

    fn mapped(self, map: impl Fn((f64, f64)) -> (f64, f64)) -> Path {
        let step = |step: Step| match step {
            Step::Move(x, y) => {
                let (x, y) = map((x, y));
                Step::Move(x, y)
            }
            Step::Line(x, y) => {
                let (x, y) = map((x, y));
                Step::Line(x, y)
            }
            Step::Curve([ax, ay, bx, by, x, y]) => {
                let (a, b, end) = (map((ax, ay)), map((bx, by)), map((x, y)));
                Step::Curve([a.0, a.1, b.0, b.1, end.0, end.1])
            }
            Step::Close => Step::Close,
        };
        Path(self.0.into_iter().map(step).collect())
    }

    /// A rectangle by its corner, width and height.
    pub fn rect(x: f64, y: f64, width: f64, height: f64) -> Path {
        let corners = [
            (x, y),
            (x + width, y),
            (x + width, y + height),
            (x, y + height),
        ];
        let mut path = Path::polyline(&corners);
        path.0.push(Step::Close);
        path
    }

    /// A rectangle with rounded corners; the radius is cut to half the shorter side.
    pub fn rounded(corner: (f64, f64), size: (f64, f64), radius: f64) -> Path {
        let (x, y) = corner;
        let (right, bottom) = (x + size.0, y + size.1);
        let r = radius.min(size.0 / 2.0).min(size.1 / 2.0).max(0.0);
        let k = r * (1.0 - KAPPA);
        Path(vec![
            Step::Move(x + r, y),
            Step::Line(right - r, y),
            Step::Curve([right - k, y, right, y + k, right, y + r]),
            Step::Line(right, bottom - r),
            Step::Curve([right, bottom - k, right - k, bottom, right - r, bottom]),
            Step::Line(x + r, bottom),
            Step::Curve([x + k, bottom, x, bottom - k, x, bottom - r]),
            Step::Line(x, y + r),
            Step::Curve([x, y + k, x + k, y, x + r, y]),
            Step::Close,
        ])
    }

    /// A circle.
    pub fn circle(centre: (f64, f64), radius: f64) -> Path {
        Path::rounded(
            (centre.0 - radius, centre.1 - radius),
            (2.0 * radius, 2.0 * radius),
            radius,
        )
    }
}

/// How far along its tangent the control point of a quarter circle lies.
const KAPPA: f64 = 0.552_284_749_831;
