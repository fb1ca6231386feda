//! Bottles of one water within a run: their differences, in which what they share is not, and weighted sums of them,
//! in which it is carried once and in full.

use super::ReducedRun;
use super::net::Net;
use super::sources::{Group, Pool, Tally, add_scaled};
use super::spike::difference;
use quantity::{Contribution, Measured};

/// A weighted sum of net values of one analyte.
#[derive(Debug, Clone)]
pub struct Combined {
    /// Σ w·net with u and degrees of freedom.
    pub value: Measured,
    /// The part of u that the net values share: line, stock, drift, dead time, mean blank, recovery. More bottles do
    /// not make it smaller.
    pub u_shared: f64,
    /// The degrees of freedom of what they do not share.
    pub own_dof: f64,
    /// The budget; shares add up to 1.
    pub budget: Vec<Contribution>,
}

impl ReducedRun {
    /// net(a) − net(b) with the u that both budgets predict; what they share is not in it.
    ///
    /// # Panics
    /// When there is no such result, or the two are of different analytes.
    pub fn difference(&self, a: usize, b: usize) -> Measured {
        let ((ca, na), (cb, nb)) = (&self.nets[a], &self.nets[b]);
        assert_eq!(ca, cb, "only results of one analyte share a line");
        let reduction = &self.reductions[*ca];
        // Two aliquots of one bottle share its contamination; two bottles do not, and may differ by it.
        let same_bottle = self.results[a].bottle.is_some() && self.results[a].bottle == self.results[b].bottle;
        let (d, row, mut tally) = difference(na, nb, reduction, same_bottle);
        tally.add_row(&reduction.sources, &row);
        Measured::with_dof(d, tally.u(), tally.dof(), self.recipe.unit.clone())
    }

    /// Σ w·net over results of one analyte, with what they share in it once: u² = wᵀ·C·w.
    ///
    /// # Panics
    /// When there is no such result, none at all, or they are of different analytes.
    pub fn combined(&self, terms: &[(usize, f64)]) -> Combined {
        let analyte = self.nets[terms[0].0].0;
        assert!(terms.iter().all(|(i, _)| self.nets[*i].0 == analyte), "only results of one analyte share a line");
        let reduction = &self.reductions[analyte];
        let weighed: Vec<(&Net, f64)> = terms.iter().map(|(i, w)| (&self.nets[*i].1, *w)).collect();
        let mut row = vec![0.0; reduction.sources.len()];
        let mut own = Tally::new();
        for (net, w) in &weighed {
            add_scaled(&mut row, *w, &net.row);
            let mut net = (*net).clone();
            for part in [&mut net.own.replicates, &mut net.own.between_vials, &mut net.own.dilution, &mut net.bottle] {
                *part *= w.abs();
            }
            net.recovery = 0.0;
            net.own_into(&mut own, reduction);
        }
        let (mut shared, own_dof) = (Tally::new(), own.dof());
        shared.add_row(&reduction.sources, &row);
        own.add_row(&reduction.sources, &row);
        let recovery: f64 = weighed.iter().map(|(net, w)| w * net.recovery).sum();
        for tally in [&mut own, &mut shared] {
            tally.add(Group::Recovery, Pool::None, weighed[0].0.recovery_dof, recovery.powi(2));
        }
        Self::add_blanks(&weighed, &mut own, &mut shared);
        let value = weighed.iter().map(|(net, w)| w * net.value).sum();
        Combined {
            value: Measured::with_dof(value, own.u(), own.dof(), self.recipe.unit.clone()),
            u_shared: shared.u(),
            own_dof,
            budget: own.budget(),
        }
    }

    /// The mean of each set of blanks once, and the doubt about its s², which stands in the bottles' own contamination
    /// as well.
    fn add_blanks(weighed: &[(&Net, f64)], own: &mut Tally, shared: &mut Tally) {
        let mut sets: Vec<usize> = weighed.iter().map(|(net, _)| net.blank_set).collect();
        sets.sort_unstable();
        sets.dedup();
        for set in sets {
            let here = || weighed.iter().filter(|(net, _)| net.blank_set == set);
            let mean: f64 = here().map(|(net, w)| w * net.blank_mean).sum();
            let bottles: f64 = here().map(|(net, w)| w * w * (net.blank_variance - net.blank_mean.powi(2))).sum();
            for tally in [&mut *own, &mut *shared] {
                tally.add(Group::BlankMean, Pool::None, f64::INFINITY, mean.powi(2));
            }
            let dof = here().map(|(net, _)| net.blank_dof).fold(f64::INFINITY, f64::min);
            own.add_welch_term(Pool::Blanks, dof, bottles + mean.powi(2));
        }
    }
}
