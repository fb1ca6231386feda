//! One accumulator for every function that needs all rows of a group: it keeps the rows as they came, puts them in
//! order of their groups once, and hands each group to the science.
//!
//! What comes out depends on the rows of a group alone, not on the order in which batches, threads or machines brought
//! them: each science sorts its rows first. The state that travels between processes is one list an argument.

use datafusion::arrow::array::{Array, ArrayRef, AsArray, BooleanArray, ListArray, UInt32Array};
use datafusion::arrow::buffer::OffsetBuffer;
use datafusion::arrow::compute::{concat, take};
use datafusion::arrow::datatypes::{DataType, Field, FieldRef};
use datafusion::common::{DataFusionError, Result, ScalarValue};
use datafusion::logical_expr::function::{AccumulatorArgs, StateFieldsArgs};
use datafusion::logical_expr::{Accumulator, AggregateUDFImpl, EmitTo, GroupsAccumulator, Signature, Volatility};
use std::hash::{Hash, Hasher};
use std::sync::Arc;

/// A science over the rows of each group.
pub struct Science {
    /// Name in SQL.
    pub name: &'static str,
    /// Arguments with their types and meaning.
    pub arguments: &'static [(&'static str, Kind, &'static str)],
    /// Fields of the answer.
    pub answer: fn() -> DataType,
    /// Answers for all groups: argument arrays in order of the groups, and where each group begins and ends.
    pub answers: fn(&[ArrayRef], &[usize]) -> Result<ArrayRef>,
    /// What it does, one sentence.
    pub about: &'static str,
}

/// Type of an argument.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// A day.
    Day,
    /// A number.
    Number,
    /// A text.
    Text,
}

impl Kind {
    /// As the engine calls it.
    pub fn data_type(self) -> DataType {
        match self {
            Self::Day => DataType::Date32,
            Self::Number => DataType::Float64,
            Self::Text => DataType::Utf8,
        }
    }
}

/// A [`Science`] as an aggregate function.
pub struct Gathered {
    science: &'static Science,
    signature: Signature,
}

impl Gathered {
    /// The function.
    pub fn new(science: &'static Science) -> Self {
        let types = science.arguments.iter().map(|a| a.1.data_type()).collect();
        Self { science, signature: Signature::exact(types, Volatility::Immutable) }
    }
}

impl std::fmt::Debug for Gathered {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(self.science.name)
    }
}

impl PartialEq for Gathered {
    fn eq(&self, other: &Self) -> bool {
        self.science.name == other.science.name
    }
}

impl Eq for Gathered {}

impl Hash for Gathered {
    fn hash<H: Hasher>(&self, state: &mut H) {
        self.science.name.hash(state);
    }
}

impl AggregateUDFImpl for Gathered {
    fn name(&self) -> &str {
        self.science.name
    }

    fn signature(&self) -> &Signature {
        &self.signature
    }

    fn return_type(&self, _: &[DataType]) -> Result<DataType> {
        Ok((self.science.answer)())
    }

    fn state_fields(&self, args: StateFieldsArgs) -> Result<Vec<FieldRef>> {
        let field = |a: &(&str, Kind, &str)| {
            let list = DataType::List(item(a.1.data_type()));
            Arc::new(Field::new(format!("{}[{}]", args.name, a.0), list, true))
        };
        Ok(self.science.arguments.iter().map(field).collect())
    }

    fn accumulator(&self, _: AccumulatorArgs) -> Result<Box<dyn Accumulator>> {
        Ok(Box::new(One(Rows::new(self.science))))
    }

    fn groups_accumulator_supported(&self, _: AccumulatorArgs) -> bool {
        true
    }

    fn create_groups_accumulator(&self, _: AccumulatorArgs) -> Result<Box<dyn GroupsAccumulator>> {
        Ok(Box::new(Rows::new(self.science)))
    }
}

fn item(of: DataType) -> FieldRef {
    Arc::new(Field::new_list_field(of, true))
}

/// Rows of many groups as they came.
struct Rows {
    science: &'static Science,
    /// An argument: its batches.
    arguments: Vec<Vec<ArrayRef>>,
    /// Group of each row, over all batches.
    groups: Vec<u32>,
    total: usize,
    bytes: usize,
}

/// Rows in order of their groups.
struct InOrder {
    arguments: Vec<ArrayRef>,
    /// Where group i begins (i) and ends (i + 1).
    ends: Vec<usize>,
}

impl Rows {
    fn new(science: &'static Science) -> Self {
        let arguments = science.arguments.iter().map(|_| vec![]).collect();
        Self { science, arguments, groups: vec![], total: 0, bytes: 0 }
    }

    fn push(&mut self, values: &[ArrayRef], groups: impl Iterator<Item = u32>, total: usize) {
        for (kept, new) in self.arguments.iter_mut().zip(values) {
            self.bytes += new.get_array_memory_size();
            kept.push(Arc::clone(new));
        }
        self.groups.extend(groups);
        self.total = self.total.max(total);
    }

    /// Takes all rows out, ordered by group; those of groups past `emit` go back in with their numbers shifted.
    fn take(&mut self, emit: EmitTo) -> Result<InOrder> {
        let groups = std::mem::take(&mut self.groups);
        let total = std::mem::take(&mut self.total);
        self.bytes = 0;
        // A counting sort: group numbers run from 0 without gaps, so one pass puts millions of rows in order.
        let mut ends = vec![0_usize; total + 1];
        for g in &groups {
            ends[*g as usize + 1] += 1;
        }
        for i in 0..total {
            ends[i + 1] += ends[i];
        }
        let mut next = ends.clone();
        let mut order = vec![0_u32; groups.len()];
        for (row, g) in groups.iter().enumerate() {
            let place = &mut next[*g as usize];
            order[*place] = u32::try_from(row).map_err(|_| too_many(self.science.name))?;
            *place += 1;
        }
        let order = UInt32Array::from(order);
        let mut arguments = vec![];
        for (batches, kind) in self.arguments.iter_mut().zip(self.science.arguments) {
            let batches = std::mem::take(batches);
            let parts: Vec<&dyn Array> = batches.iter().map(AsRef::as_ref).collect();
            let whole = if parts.is_empty() {
                datafusion::arrow::array::new_empty_array(&kind.1.data_type())
            } else {
                concat(&parts)?
            };
            // Freed before the rows are taken in their order: else three copies stand in memory.
            drop(batches);
            arguments.push(take(&whole, &order, None)?);
        }
        let EmitTo::First(n) = emit else { return Ok(InOrder { arguments, ends }) };
        let cut = ends[n];
        let rest: Vec<ArrayRef> = arguments.iter().map(|a| a.slice(cut, a.len() - cut)).collect();
        let shifted: Vec<u32> =
            (n..total).flat_map(|g| std::iter::repeat_n((g - n) as u32, ends[g + 1] - ends[g])).collect();
        self.push(&rest, shifted.into_iter(), total - n);
        let arguments = arguments.iter().map(|a| a.slice(0, cut)).collect();
        ends.truncate(n + 1);
        Ok(InOrder { arguments, ends })
    }
}

fn too_many(name: &str) -> DataFusionError {
    DataFusionError::ResourcesExhausted(format!("{name}: more than 4,294,967,295 rows in one partition"))
}

impl GroupsAccumulator for Rows {
    fn update_batch(
        &mut self,
        values: &[ArrayRef],
        groups: &[usize],
        filter: Option<&BooleanArray>,
        total: usize,
    ) -> Result<()> {
        let Some(filter) = filter else {
            self.push(values, groups.iter().map(|g| *g as u32), total);
            return Ok(());
        };
        let kept: Vec<ArrayRef> =
            values.iter().map(|v| datafusion::arrow::compute::filter(v, filter)).collect::<Result<_, _>>()?;
        let of = groups.iter().zip(filter.iter()).filter(|(_, f)| *f == Some(true)).map(|(g, _)| *g as u32);
        self.push(&kept, of, total);
        Ok(())
    }

    fn evaluate(&mut self, emit: EmitTo) -> Result<ArrayRef> {
        let rows = self.take(emit)?;
        (self.science.answers)(&rows.arguments, &rows.ends)
    }

    fn state(&mut self, emit: EmitTo) -> Result<Vec<ArrayRef>> {
        let rows = self.take(emit)?;
        rows.lists()
    }

    fn merge_batch(&mut self, values: &[ArrayRef], groups: &[usize], total: usize) -> Result<()> {
        let lists: Vec<&ListArray> = values.iter().map(AsArray::as_list::<i32>).collect();
        let of: Vec<u32> = groups
            .iter()
            .enumerate()
            .flat_map(|(i, g)| std::iter::repeat_n(*g as u32, lists[0].value_length(i) as usize))
            .collect();
        let flat: Vec<ArrayRef> = lists.iter().map(|l| flat(l)).collect();
        self.push(&flat, of.into_iter(), total);
        Ok(())
    }

    fn convert_to_state(&self, values: &[ArrayRef], filter: Option<&BooleanArray>) -> Result<Vec<ArrayRef>> {
        let mut rows = Self::new(self.science);
        let each: Vec<usize> = (0..values[0].len()).collect();
        rows.update_batch(values, &each, filter, each.len())?;
        rows.state(EmitTo::All)
    }

    fn size(&self) -> usize {
        self.bytes + self.groups.capacity() * size_of::<u32>()
    }
}

/// The values of a list array that its lists hold, in their order.
fn flat(list: &ListArray) -> ArrayRef {
    let (first, last) = (list.value_offsets()[0] as usize, list.value_offsets()[list.len()] as usize);
    list.values().slice(first, last - first)
}

impl InOrder {
    fn lists(&self) -> Result<Vec<ArrayRef>> {
        let lengths = self.ends.windows(2).map(|w| w[1] - w[0]);
        let offsets = OffsetBuffer::<i32>::from_lengths(lengths);
        self.arguments
            .iter()
            .map(|a| {
                let list = ListArray::try_new(item(a.data_type().clone()), offsets.clone(), Arc::clone(a), None)?;
                Ok(Arc::new(list) as ArrayRef)
            })
            .collect()
    }
}

/// The rows of a query without groups.
struct One(Rows);

impl std::fmt::Debug for One {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(self.0.science.name)
    }
}

impl Accumulator for One {
    fn update_batch(&mut self, values: &[ArrayRef]) -> Result<()> {
        self.0.push(values, std::iter::repeat_n(0, values[0].len()), 1);
        Ok(())
    }

    fn evaluate(&mut self) -> Result<ScalarValue> {
        self.0.total = 1;
        ScalarValue::try_from_array(&GroupsAccumulator::evaluate(&mut self.0, EmitTo::All)?, 0)
    }

    fn size(&self) -> usize {
        GroupsAccumulator::size(&self.0)
    }

    fn state(&mut self) -> Result<Vec<ScalarValue>> {
        self.0.total = 1;
        let lists = GroupsAccumulator::state(&mut self.0, EmitTo::All)?;
        lists.iter().map(|l| ScalarValue::try_from_array(l, 0)).collect()
    }

    fn merge_batch(&mut self, states: &[ArrayRef]) -> Result<()> {
        let groups = vec![0; states[0].len()];
        GroupsAccumulator::merge_batch(&mut self.0, states, &groups, 1)
    }
}
