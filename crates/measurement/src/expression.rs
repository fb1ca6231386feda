//! A small, safe language for measurement models: `(gross - blank)/(slope*recovery)*dilution`.
//!
//! Numbers, named inputs, `+ - * / ^` (power binds first and to the right, then the sign),
//! brackets, `pi`, and the functions sqrt exp ln log10 abs sin cos tan of one argument, min max
//! of two or more. No loops, no assignments, nothing to call outside: a model text from a stranger
//! can only be slow by its length, which is limited. The text is parsed once into a flat program
//! of three-address instructions; constants are folded. It runs on single values, on values with
//! their derivatives (forward mode, exact to rounding), or on blocks of draws without allocation.
//! Units are the writer's business: all inputs in units that fit together; angles in radians.
//! exp, ln, powers and angles are libm's, so that results have the same digits everywhere.
//! Where a value leaves the reals (ln of a negative number, division by zero) the answer is NaN or
//! infinite, and the caller counts it. Checked in `tests/expression.rs`.

use crate::error::Error;

/// Longest text and deepest nesting accepted: a safety limit of ours, far over any model on paper.
const MAX_LENGTH: usize = 20_000;
const MAX_DEPTH: usize = 200;

/// Draws evaluated together; a block of this length per temporary stays in the first cache.
pub const LANES: usize = 500;

#[derive(Debug, Clone, Copy, PartialEq)]
enum Operand {
    Input(usize),
    Constant(f64),
    Slot(usize),
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Unary {
    Negate,
    Sqrt,
    Exp,
    Ln,
    Log10,
    Abs,
    Sin,
    Cos,
    Tan,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Binary {
    Add,
    Subtract,
    Multiply,
    Divide,
    Power,
    Min,
    Max,
}

#[derive(Debug, Clone, Copy, PartialEq)]
enum Step {
    One(Unary, Operand),
    Two(Binary, Operand, Operand),
    /// Whole power, by repeated multiplication.
    Whole(Operand, i32),
}

/// A parsed model.
#[derive(Debug, Clone, PartialEq)]
pub struct Expression {
    text: String,
    names: Vec<String>,
    /// Step k writes slot `target`.
    steps: Vec<(Step, usize)>,
    slots: usize,
    result: Operand,
}

/// Working space for blocks, made once per thread.
#[derive(Debug, Clone)]
pub struct Scratch(Vec<[f64; LANES]>);

fn apply_one(op: Unary, x: f64) -> f64 {
    match op {
        Unary::Negate => -x,
        Unary::Sqrt => x.sqrt(),
        Unary::Exp => libm::exp(x),
        Unary::Ln => libm::log(x),
        Unary::Log10 => libm::log10(x),
        Unary::Abs => x.abs(),
        Unary::Sin => libm::sin(x),
        Unary::Cos => libm::cos(x),
        Unary::Tan => libm::tan(x),
    }
}

fn apply_two(op: Binary, x: f64, y: f64) -> f64 {
    match op {
        Binary::Add => x + y,
        Binary::Subtract => x - y,
        Binary::Multiply => x * y,
        Binary::Divide => x / y,
        Binary::Power => libm::pow(x, y),
        // A draw that is no number stays none: f64::min would hide it.
        Binary::Min | Binary::Max if x.is_nan() || y.is_nan() => f64::NAN,
        Binary::Min => x.min(y),
        Binary::Max => x.max(y),
    }
}

fn whole_power(x: f64, n: i32) -> f64 {
    let mut result = 1.0;
    let mut base = x;
    let mut k = n.unsigned_abs();
    while k > 0 {
        if k & 1 == 1 {
            result *= base;
        }
        base *= base;
        k >>= 1;
    }
    if n < 0 { 1.0 / result } else { result }
}

impl Expression {
    /// Parses a model over the inputs in `names`, in that order. A name may hold letters of any
    /// script, digits and underscores.
    ///
    /// # Errors
    /// [`Error::Model`] with the character position: an unknown name or function (the known ones
    /// are listed), a missing bracket, a text too long.
    pub fn parse(text: &str, names: &[&str]) -> Result<Self, Error> {
        let mut parser = Parser {
            text,
            chars: text.char_indices().collect(),
            at: 0,
            names,
            steps: Vec::new(),
            free: Vec::new(),
            slots: 0,
            depth: 0,
        };
        if text.len() > MAX_LENGTH {
            return Err(Error::Model {
                position: MAX_LENGTH,
                message: format!("the text has {} bytes, at most {MAX_LENGTH}", text.len()),
            });
        }
        let result = parser.sum()?;
        if let Some(c) = parser.peek() {
            return Err(parser.error(format!("found `{c}`, expected an operator or the end")));
        }
        Ok(Self {
            text: text.to_string(),
            names: names.iter().map(ToString::to_string).collect(),
            steps: parser.steps,
            slots: parser.slots,
            result,
        })
    }

    /// The names that a text uses and that are neither functions nor constants, in order of
    /// appearance: what a caller has to give.
    pub fn names_in(text: &str) -> Vec<String> {
        let mut names: Vec<String> = Vec::new();
        let chars: Vec<char> = text.chars().collect();
        let mut i = 0;
        while i < chars.len() {
            let start = i;
            while i < chars.len() && (chars[i].is_alphanumeric() || chars[i] == '_') {
                i += 1;
            }
            if i == start {
                i += 1;
            } else if !chars[start].is_ascii_digit() {
                let name: String = chars[start..i].iter().collect();
                if !is_function(&name) && name != "pi" && !names.contains(&name) {
                    names.push(name);
                }
            }
        }
        names
    }

    /// The text it was made from.
    pub fn text(&self) -> &str {
        &self.text
    }

    /// The inputs, in order.
    pub fn names(&self) -> &[String] {
        &self.names
    }

    /// Value at one point.
    pub fn value(&self, x: &[f64]) -> f64 {
        let mut slots = vec![0.0; self.slots];
        for (step, target) in &self.steps {
            let get = |o: Operand| match o {
                Operand::Input(i) => x[i],
                Operand::Constant(c) => c,
                Operand::Slot(s) => slots[s],
            };
            slots[*target] = match *step {
                Step::One(op, a) => apply_one(op, get(a)),
                Step::Two(op, a, b) => apply_two(op, get(a), get(b)),
                Step::Whole(a, n) => whole_power(get(a), n),
            };
        }
        match self.result {
            Operand::Input(i) => x[i],
            Operand::Constant(c) => c,
            Operand::Slot(s) => slots[s],
        }
    }

    /// Value and partial derivatives at one point, by forward differentiation of each step.
    pub fn gradient(&self, x: &[f64]) -> (f64, Vec<f64>) {
        let n = x.len();
        let mut slots = vec![(0.0, vec![0.0; n]); self.slots];
        let get = |slots: &[(f64, Vec<f64>)], o: Operand| match o {
            Operand::Input(i) => {
                let mut g = vec![0.0; n];
                g[i] = 1.0;
                (x[i], g)
            }
            Operand::Constant(c) => (c, vec![0.0; n]),
            Operand::Slot(s) => slots[s].clone(),
        };
        for (step, target) in &self.steps {
            slots[*target] = match *step {
                Step::One(op, a) => {
                    let (v, g) = get(&slots, a);
                    let d = derivative_one(op, v);
                    (apply_one(op, v), chain(&g, d, None))
                }
                Step::Two(op, a, b) => {
                    let ((va, ga), (vb, gb)) = (get(&slots, a), get(&slots, b));
                    let (da, db) = derivative_two(op, va, vb);
                    (apply_two(op, va, vb), chain(&ga, da, Some((&gb, db))))
                }
                Step::Whole(a, k) => {
                    let (v, g) = get(&slots, a);
                    // x^0 is one everywhere: its slope is nought, also at nought, where 0·x⁻¹ would be no number.
                    let d = if k == 0 { 0.0 } else { f64::from(k) * whole_power(v, k - 1) };
                    (whole_power(v, k), chain(&g, d, None))
                }
            };
        }
        get(&slots, self.result)
    }

    /// Working space for [`Expression::block`].
    pub fn scratch(&self) -> Scratch {
        Scratch(vec![[0.0; LANES]; self.slots + 1])
    }

    /// Values of `out.len()` ≤ [`LANES`] draws; `inputs` holds a block of draws for each input.
    /// No allocation.
    pub fn block(&self, inputs: &[[f64; LANES]], scratch: &mut Scratch, out: &mut [f64]) {
        let n = out.len();
        let (spare, slots) = scratch.0.split_last_mut().expect("scratch has one block more than slots");
        for (step, target) in &self.steps {
            {
                let source = Source { inputs, slots, n };
                match *step {
                    Step::One(op, a) => source.one(op, a, &mut spare[..n]),
                    Step::Two(op, a, b) => source.two(op, a, b, &mut spare[..n]),
                    Step::Whole(a, k) => source.map(a, &mut spare[..n], |x| whole_power(x, k)),
                }
            }
            std::mem::swap(spare, &mut slots[*target]);
        }
        match self.result {
            Operand::Input(i) => out.copy_from_slice(&inputs[i][..n]),
            Operand::Constant(c) => out.fill(c),
            Operand::Slot(s) => out.copy_from_slice(&slots[s][..n]),
        }
    }
}

fn derivative_one(op: Unary, x: f64) -> f64 {
    match op {
        Unary::Negate => -1.0,
        Unary::Sqrt => 0.5 / x.sqrt(),
        Unary::Exp => libm::exp(x),
        Unary::Ln => 1.0 / x,
        Unary::Log10 => 1.0 / (x * std::f64::consts::LN_10),
        Unary::Abs => x.signum(),
        Unary::Sin => libm::cos(x),
        Unary::Cos => -libm::sin(x),
        Unary::Tan => 1.0 + libm::tan(x) * libm::tan(x),
    }
}

fn derivative_two(op: Binary, x: f64, y: f64) -> (f64, f64) {
    match op {
        Binary::Add => (1.0, 1.0),
        Binary::Subtract => (1.0, -1.0),
        Binary::Multiply => (y, x),
        Binary::Divide => (1.0 / y, -x / (y * y)),
        Binary::Power => {
            let by_base = if y == 0.0 { 0.0 } else { y * libm::pow(x, y - 1.0) };
            // x^y is nought along x = 0 where y is above it.
            let by_exponent = if x == 0.0 && y > 0.0 { 0.0 } else { libm::pow(x, y) * libm::log(x) };
            (by_base, by_exponent)
        }
        Binary::Min if x <= y => (1.0, 0.0),
        Binary::Max if x >= y => (1.0, 0.0),
        Binary::Min | Binary::Max => (0.0, 1.0),
    }
}

/// da·ga + db·gb; a factor that is no number does not touch a derivative that is exactly zero.
fn chain(ga: &[f64], da: f64, b: Option<(&[f64], f64)>) -> Vec<f64> {
    let part = |g: f64, d: f64| if g == 0.0 { 0.0 } else { g * d };
    match b {
        None => ga.iter().map(|g| part(*g, da)).collect(),
        Some((gb, db)) => ga.iter().zip(gb).map(|(a, b)| part(*a, da) + part(*b, db)).collect(),
    }
}

struct Source<'a> {
    inputs: &'a [[f64; LANES]],
    slots: &'a [[f64; LANES]],
    n: usize,
}

impl Source<'_> {
    fn slice(&self, o: Operand) -> Result<&[f64], f64> {
        match o {
            Operand::Input(i) => Ok(&self.inputs[i][..self.n]),
            Operand::Slot(s) => Ok(&self.slots[s][..self.n]),
            Operand::Constant(c) => Err(c),
        }
    }

    fn map(&self, a: Operand, out: &mut [f64], f: impl Fn(f64) -> f64) {
        match self.slice(a) {
            Ok(a) => {
                for (o, x) in out.iter_mut().zip(a) {
                    *o = f(*x);
                }
            }
            Err(c) => out.fill(f(c)),
        }
    }

    fn zip(&self, a: Operand, b: Operand, out: &mut [f64], f: impl Fn(f64, f64) -> f64) {
        match (self.slice(a), self.slice(b)) {
            (Ok(a), Ok(b)) => {
                for ((o, x), y) in out.iter_mut().zip(a).zip(b) {
                    *o = f(*x, *y);
                }
            }
            (Ok(_), Err(c)) => self.map(a, out, |x| f(x, c)),
            (Err(c), _) => self.map(b, out, |y| f(c, y)),
        }
    }

    // The match stands outside the loop, so that each loop is a plain one over slices.
    fn one(&self, op: Unary, a: Operand, out: &mut [f64]) {
        match op {
            Unary::Negate => self.map(a, out, |x| -x),
            Unary::Sqrt => self.map(a, out, f64::sqrt),
            Unary::Abs => self.map(a, out, f64::abs),
            other => self.map(a, out, |x| apply_one(other, x)),
        }
    }

    fn two(&self, op: Binary, a: Operand, b: Operand, out: &mut [f64]) {
        match op {
            Binary::Add => self.zip(a, b, out, |x, y| x + y),
            Binary::Subtract => self.zip(a, b, out, |x, y| x - y),
            Binary::Multiply => self.zip(a, b, out, |x, y| x * y),
            Binary::Divide => self.zip(a, b, out, |x, y| x / y),
            other => self.zip(a, b, out, |x, y| apply_two(other, x, y)),
        }
    }
}

const ONE_ARGUMENT: &[(&str, Unary)] = &[
    ("sqrt", Unary::Sqrt),
    ("exp", Unary::Exp),
    ("ln", Unary::Ln),
    ("log10", Unary::Log10),
    ("abs", Unary::Abs),
    ("sin", Unary::Sin),
    ("cos", Unary::Cos),
    ("tan", Unary::Tan),
];

fn is_function(name: &str) -> bool {
    name == "min" || name == "max" || ONE_ARGUMENT.iter().any(|(n, _)| *n == name)
}

struct Parser<'a> {
    text: &'a str,
    chars: Vec<(usize, char)>,
    at: usize,
    names: &'a [&'a str],
    steps: Vec<(Step, usize)>,
    free: Vec<usize>,
    slots: usize,
    depth: usize,
}

impl Parser<'_> {
    fn error(&self, message: String) -> Error {
        Error::Model { position: self.at.min(self.chars.len()) + 1, message }
    }

    fn peek(&mut self) -> Option<char> {
        while self.chars.get(self.at).is_some_and(|c| c.1.is_whitespace()) {
            self.at += 1;
        }
        self.chars.get(self.at).map(|c| c.1)
    }

    fn eat(&mut self, wanted: char) -> bool {
        let found = self.peek() == Some(wanted);
        if found {
            self.at += 1;
        }
        found
    }

    fn emit(&mut self, step: Step) -> Operand {
        let constant = |o: Operand| match o {
            Operand::Constant(c) => Some(c),
            _ => None,
        };
        let folded = match step {
            Step::One(op, a) => constant(a).map(|a| apply_one(op, a)),
            Step::Two(op, a, b) => constant(a).zip(constant(b)).map(|(a, b)| apply_two(op, a, b)),
            Step::Whole(a, n) => constant(a).map(|a| whole_power(a, n)),
        };
        if let Some(c) = folded {
            return Operand::Constant(c);
        }
        let used: [Option<Operand>; 2] = match step {
            Step::One(_, a) | Step::Whole(a, _) => [Some(a), None],
            Step::Two(_, a, b) => [Some(a), Some(b)],
        };
        for o in used.into_iter().flatten() {
            if let Operand::Slot(s) = o {
                self.free.push(s);
            }
        }
        let target = self.free.pop().unwrap_or_else(|| {
            self.slots += 1;
            self.slots - 1
        });
        self.steps.push((step, target));
        Operand::Slot(target)
    }

    fn sum(&mut self) -> Result<Operand, Error> {
        self.depth += 1;
        if self.depth > MAX_DEPTH {
            return Err(self.error(format!("brackets nest deeper than {MAX_DEPTH}")));
        }
        let mut left = self.product()?;
        loop {
            let op = match self.peek() {
                Some('+') => Binary::Add,
                Some('-' | '−') => Binary::Subtract,
                _ => break,
            };
            self.at += 1;
            let right = self.product()?;
            left = self.emit(Step::Two(op, left, right));
        }
        self.depth -= 1;
        Ok(left)
    }

    fn product(&mut self) -> Result<Operand, Error> {
        let mut left = self.signed()?;
        loop {
            let op = match self.peek() {
                Some('*' | '·' | '×') => Binary::Multiply,
                Some('/') => Binary::Divide,
                _ => return Ok(left),
            };
            self.at += 1;
            let right = self.signed()?;
            left = self.emit(Step::Two(op, left, right));
        }
    }

    fn signed(&mut self) -> Result<Operand, Error> {
        let mut negative = false;
        loop {
            if self.eat('-') || self.eat('−') {
                negative = !negative;
            } else if !self.eat('+') {
                break;
            }
        }
        let value = self.power()?;
        Ok(if negative { self.emit(Step::One(Unary::Negate, value)) } else { value })
    }

    fn power(&mut self) -> Result<Operand, Error> {
        let base = self.atom()?;
        if !self.eat('^') {
            return Ok(base);
        }
        self.depth += 1;
        if self.depth > MAX_DEPTH {
            return Err(self.error(format!("powers nest deeper than {MAX_DEPTH}")));
        }
        // Right-associative; a sign may stand in the exponent.
        let exponent = self.signed()?;
        self.depth -= 1;
        Ok(match exponent {
            Operand::Constant(c) if c.fract() == 0.0 && c.abs() <= 64.0 => self.emit(Step::Whole(base, c as i32)),
            Operand::Constant(0.5) => self.emit(Step::One(Unary::Sqrt, base)),
            _ => self.emit(Step::Two(Binary::Power, base, exponent)),
        })
    }

    fn atom(&mut self) -> Result<Operand, Error> {
        match self.peek() {
            Some('(') => {
                self.at += 1;
                let inner = self.sum()?;
                self.close()?;
                Ok(inner)
            }
            Some(c) if c.is_ascii_digit() || c == '.' => self.number(),
            Some(c) if c.is_alphabetic() || c == '_' => self.named(),
            Some(c) => Err(self.error(format!("found `{c}`, expected a number, a name or `(`"))),
            None => Err(self.error("the text ends, expected a number, a name or `(`".into())),
        }
    }

    fn close(&mut self) -> Result<(), Error> {
        if self.eat(')') {
            return Ok(());
        }
        let found = self.peek().map_or("the end".into(), |c| format!("`{c}`"));
        Err(self.error(format!("found {found}, expected `)`")))
    }

    fn number(&mut self) -> Result<Operand, Error> {
        let start = self.at;
        let digit = |p: &Self, at: usize| p.chars.get(at).is_some_and(|c| c.1.is_ascii_digit());
        while digit(self, self.at) || self.chars.get(self.at).is_some_and(|c| c.1 == '.') {
            self.at += 1;
        }
        if self.chars.get(self.at).is_some_and(|c| matches!(c.1, 'e' | 'E')) {
            let sign = self.chars.get(self.at + 1).is_some_and(|c| matches!(c.1, '+' | '-'));
            let first = self.at + 1 + usize::from(sign);
            if digit(self, first) {
                self.at = first;
                while digit(self, self.at) {
                    self.at += 1;
                }
            }
        }
        let slice = self.slice(start);
        match slice.parse::<f64>() {
            Ok(v) if v.is_finite() => Ok(Operand::Constant(v)),
            _ => {
                let message = format!("`{slice}` is not a number");
                self.at = start;
                Err(self.error(message))
            }
        }
    }

    fn slice(&self, start: usize) -> String {
        let from = self.chars[start].0;
        let to = self.chars.get(self.at).map_or(self.text.len(), |c| c.0);
        self.text[from..to].to_string()
    }

    fn named(&mut self) -> Result<Operand, Error> {
        let start = self.at;
        while self.chars.get(self.at).is_some_and(|c| c.1.is_alphanumeric() || c.1 == '_') {
            self.at += 1;
        }
        let name = self.slice(start);
        if self.peek() == Some('(') {
            return self.call(&name, start);
        }
        if let Some(i) = self.names.iter().position(|n| *n == name) {
            return Ok(Operand::Input(i));
        }
        if name == "pi" {
            return Ok(Operand::Constant(std::f64::consts::PI));
        }
        self.at = start;
        Err(self.error(format!("`{name}` is not an input; the inputs are {}", self.names.join(", "))))
    }

    fn call(&mut self, name: &str, start: usize) -> Result<Operand, Error> {
        if !is_function(name) {
            self.at = start;
            return Err(
                self.error(format!("`{name}` is not a function; there are sqrt exp ln log10 abs sin cos tan min max"))
            );
        }
        self.at += 1;
        let first = self.sum()?;
        if let Some((_, op)) = ONE_ARGUMENT.iter().find(|(n, _)| *n == name) {
            self.close()?;
            return Ok(self.emit(Step::One(*op, first)));
        }
        let op = if name == "min" { Binary::Min } else { Binary::Max };
        let mut value = first;
        let mut arguments = 1;
        while self.eat(',') {
            let next = self.sum()?;
            value = self.emit(Step::Two(op, value, next));
            arguments += 1;
        }
        self.close()?;
        if arguments < 2 {
            return Err(self.error(format!("`{name}` needs two arguments or more")));
        }
        Ok(value)
    }
}
