### The frame of every page: menu, search, keys, language, what went wrong.

web_frame-skip = To the page itself
web_frame-invented = Invented data: no real well, no real water.
web_frame-footer = Limpid compares numbers and never says that water may be drunk: advice belongs to the local health authority. What was not tested, microbes first, is not spoken of.
web_frame-places = Places
web_frame-menu = Menu
web_frame-desk = Desk
web_frame-wells = Wells
web_frame-trips = Trips
web_frame-lots = Lots
web_frame-runs = Runs
web_frame-results = Results
web_frame-sources = Sources
web_frame-water = Water
web_frame-time = Over time
web_frame-statements = Statements
web_frame-report = Report
web_frame-record = Record
web_frame-plan = Plan the next trip
web_frame-bring-in = Bring in files
web_frame-search = Search
web_frame-search-label = Search: bottle, well, element, page
web_frame-search-title = Search

# $what (name): what it is
web_frame-search-for = What fits “{ $what }”


# $what (name): what it is
web_frame-search-nothing = Nothing on record is called “{ $what }”.

web_frame-search-empty = Type a bottle, a well, a trip, a run, an element or a page.
web_frame-nearest = Nearest

# $n (count): how many
web_frame-search-more = { $n ->
    [one] and { $n } more; type more of the name
   *[other] and { $n } more; type more of the name
}

web_frame-pages = Pages
web_frame-bottles = Bottles
web_frame-elements = Elements and quantities

# $who (name): who
web_frame-acting-as = Acting as { $who }

web_frame-nobody = Nobody is named: say who acts
# Over a table that goes on to the right.
# $n (name): how many columns stand there
web_frame-more-columns = further columns: { $n } →

# Label of a list of people.
web_frame-who-acts = Who acts

# The last choice of a list of people, and the label of the field for it.
web_frame-another-name = another name

web_frame-name-field = Name that stands as author in the record
web_frame-name-act = Act under this name
web_frame-log-out = Log out
web_frame-language = Language
web_frame-reader = reader
web_frame-sampler = sampler
web_frame-analyst = analyst
web_frame-lead = lead
web_frame-keys = Keys
web_frame-keys-title = Keys of the keyboard
web_frame-keys-where = They work outside fields, where script runs. Everything is there by links and forms as well.
web_frame-keys-search = search
web_frame-keys-go = then a letter: go to
web_frame-keys-rows = next row, row before; Enter opens it
web_frame-keys-set = bottle before, next bottle of the set
web_frame-keys-copy = copy the sentence
web_frame-keys-list = this list
web_frame-keys-close = close a list; nothing typed is lost
web_frame-keys-off = Turn single keys off
web_frame-keys-on = Turn single keys on
web_frame-keys-close-list = Close
web_frame-copied = Copied.
web_frame-not-found = Not found
web_frame-nobodys-name = No permission
web_frame-elsewhere = Changed by somebody else
web_frame-too-large = Too large
web_frame-too-many = Too many tries
web_frame-outside = Something outside failed
web_frame-refused = Refused

# $what (name): what it is
web_frame-looked-for = Looked for: { $what }

web_frame-no-page = There is no such page.
web_frame-nothing-changed = Nothing was changed.
web_frame-to-desk = To the desk
web_frame-csv = Table as CSV
web_frame-svg = Picture as SVG
web_frame-png = Picture as PNG
web_frame-evidence = used as evidence
web_frame-by-profile = by profile
web_frame-told = Point at a mark, or give the picture the focus and use the arrow keys.
web_frame-told-zoom = Draw from side to side, or press + at a mark, for its years alone; − for more years, 0 for all.
web_frame-told-of = of
