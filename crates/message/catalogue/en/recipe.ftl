### The pages of recipes: list, one of them, beside a run, taking one in.

recipe-title = Recipes

# $name (name)
recipe-one = Recipe { $name }

recipe-what = A recipe says how the counts of a run become concentrations: the detector’s dead time, the internal standards, drift, overlaps, which blank is taken off. It is your laboratory’s own; a new programme holds none.

recipe-all = Every version of every recipe

recipe-none = No recipe is on record.

recipe-name = Recipe

recipe-version = Version

recipe-since = Since

recipe-by = By

recipe-runs = Runs

recipe-reason = Reason

recipe-ask = Make one by questions

recipe-template = Template that explains every key (TOML)

recipe-take = Take a recipe in

recipe-take-file = As a file

recipe-text = Its text (TOML)

recipe-text-what = Refused as a whole where a key is unknown, missing or out of its range; every fault is told.

recipe-why-what = Another text under the name of one on record is its next version and needs a reason. Kept for good, with your name.

recipe-keep = Keep it

recipe-nothing-kept = Nothing was kept.

# $version (count)
recipe-kept-text = The text of version { $version }

recipe-beside = Hold it beside a run

recipe-run = Run

recipe-check = What is missing?

# $run (name)
# $name (name)
recipe-meets = Run { $run } can be reduced by recipe { $name }.

# $run (name)
# $name (name)
recipe-meets-not = Recipe { $name } and run { $run } do not meet:

recipe-give = Give it to a run

recipe-give-what = The run is reduced by its newest version from now on, and everything that stands on it is derived anew. What the run had stays on record.

recipe-give-it = Give it to the run

recipe-has-it = The run has that version already; nothing was written.

recipe-no-run = No run is on record.

recipe-vial = Correct the name of a vial

recipe-vial-what = So that run and recipe meet. The name as it stood is kept.

recipe-vial-place = Which vial: run/position

recipe-vial-name = Its name from now on

recipe-vial-do = Correct it

recipe-questions = A recipe by questions

recipe-questions-what = What no program can know of a laboratory is asked for here; what is left empty and not marked as needed takes the value that the template shows. The recipe is shown before it is kept.

recipe-needed = needed

recipe-show = Show the recipe

recipe-shown = The recipe as it would be kept

recipe-shown-what = It may still be changed here. Read by its keys it has no fault.

# $n (count)
recipe-faults = Nothing was made yet: { $n ->
    [one] one answer cannot be taken
   *[other] { $n } answers cannot be taken
}.

recipe-left-out = not said

# Title of a page that tells what an act led to.
recipe-done = Kept

recipe-go-on = Go on

recipe-vial-has-it = The vial has that name already; nothing was written.
