// Every text of the page in English. A translation is one more file of this shape.

/** Where stored produce lies. */
const places = {
  kitchen: 'kitchen, at room temperature',
  fridge: 'refrigerator',
  best: 'the best place for it',
};

const stored: Record<string, string> = {
  kitchen: 'in the kitchen, at room temperature',
  fridge: 'in the refrigerator',
  best: 'in the cool store',
};
/** Where what is taken before the frost goes. */
const storedIn = (place: string | undefined) => stored[place ?? ''] ?? '';

/** Michigan State University Extension, Preserving Food Safely 01600049 (1997). */
const blanching = (crop: string | undefined) =>
  `blanched for ${crop === 'collards' ? '3' : '2'} minutes: Michigan State University Extension`;

/** What ends a stand, or keeps it from coming to anything. */
const limits: Record<string, string> = {
  'soil too cold': 'cold soil',
  'soil too hot': 'hot soil',
  'no safe day to set out': 'no safe day to set out',
  'outgrows its tray before it can go out': 'outgrowing its tray',
  frost: 'frost',
  heat: 'heat',
  bolting: 'bolting',
  'season too short': 'too short a season',
  'day length': 'day length',
  age: 'old age',
};

const servingsOf = (n: string | undefined) => (n === '1' ? '1 serving' : `${n} servings`);

const weeksOf = (n: string | undefined) => (n === '1' ? '1 week' : `${n} weeks`);

/** How what waits in the ground is pulled; 0 weeks: each plant as it is ready. */
const pulledOver = (weeks: string | undefined, from: string | undefined) => {
  if (weeks === '0') return 'as each is ready';
  return `over ${weeksOf(weeks)}${from ? ` from ${from}` : ' once ready'}`;
};
const daysOf = (n: string | undefined) => (n === '1' ? '1 day' : `${n} days`);
const yearsOf = (n: string | undefined) => (n === '1' ? '1 year' : `${n} years`);
const cellsOf = (n: string | undefined) => (n === '1' ? '1 cell' : `${n} cells`);
const clumpsOf = (n: string | undefined) => (n === '1' ? '1 clump' : `${n} clumps`);

const seedsOf = (n: string | undefined, pieces: boolean) => {
  const what = pieces ? 'piece' : 'seed';
  return `${n} ${n === '1' ? what : `${what}s`}`;
};

/** What is planted of a crop in place of seed, by its id. */
const plantedPieces: Record<string, [string, string]> = {
  potato: ['seed potato', 'seed potatoes'],
  garlic: ['clove', 'cloves'],
};
/** Crops of which tubers, cloves or slips are planted, not seed sown. */
const isPlanted = (crop: string) => crop in plantedPieces || crop === 'sweet-potato';
const piecesOf = (n: string, crop: string) => {
  const [one, many] = plantedPieces[crop] ?? ['piece', 'pieces'];
  return `${n} ${n === '1' ? one : many}`;
};

const plantsOf = (n: string | undefined) => (n === '1' ? '1 plant' : `${n} plants`);
const isOrAre = (n: string | undefined) => (n === '1' ? 'is' : 'are');
const wasOrWere = (n: string | undefined) => (n === '1' ? 'was' : 'were');

/** Of more than one, how far they stand from each other. */
const apart = (n: string | undefined, v: Record<string, string>) =>
  n === '1' ? '' : ` ${v.spacing_mm} apart`;
const placesApart = (v: Record<string, string>) =>
  `${v.places} ${v.places === '1' ? 'place' : 'places'}${apart(v.places, v)}`;

const seedsEach = (v: Record<string, string>) => `${seedsOf(v.seeds, false)} each, ${v.depth_mm} deep`;

/** Kitchen groups of the crops, by their ids in the crop library. */
const groups: Record<string, string> = {
  alliums: 'alliums',
  'cooking-greens': 'cooking greens',
  fruits: 'fruits',
  heads: 'heads',
  herbs: 'herbs',
  pods: 'pods',
  roots: 'roots',
  salad: 'salad',
  stems: 'stems',
  tubers: 'tubers',
};

export const en = {
  language: 'English',
  locale: 'en-GB',
  appName: 'Sowtide',
  /** An amount too small for its figure. */
  under: (least: string) => `under ${least}`,
  /** What is under something is not about it. */
  aboutUnder: /\babout (under )/gi,
  skip: 'Skip to the content',
  nav: {
    label: 'Pages',
    season: 'Season',
    today: 'Today',
    table: 'Table',
    store: 'Store',
    packets: 'Seed',
    plan: 'Plan',
    site: 'Site',
    settings: 'Units and look',
  },
  settings: {
    units: 'Units',
    metric: 'Metric',
    us: 'US',
    look: 'Look',
    system: 'As the device',
    light: 'Light',
    dark: 'Dark',
    language: 'Language',
    density: 'Height of beds',
    low: 'Low',
    tall: 'Tall',
  },
  loading: 'Reading the garden …',
  retry: 'Try again',
  offline: 'The garden server is not in reach. What you log is kept here and sent later.',
  /** Entries that are not sent yet; `unkept`: they are on this page alone. */
  waiting: (n: number, unkept: boolean) =>
    `${n === 1 ? '1 entry waits' : `${n} entries wait`} to be sent.${
      unkept ? ' This browser keeps nothing for the garden: do not close the page before all is sent.' : ''
    }`,
  refused: 'The garden did not take an entry:',
  dropRefused: 'Put it aside',
  doubted: (deed: string) => `Written down (${deed}), but this looks odd:`,
  doubtTrue: 'It is so',
  doubtWrong: 'Take it back',

  paper: {
    title: 'On paper and in a calendar',
    size: 'Paper',
    sizes: { a4: 'A4', letter: 'Letter' },
    sheets: {
      labels: { name: 'Labels', what: 'one a stand, with a code that opens it' },
      'sowing-sheet': { name: 'Sowing sheet', what: 'the next eight weeks, to tick off' },
      'bed-sheets': { name: 'Bed sheets', what: 'what stands where, a page a bed' },
      season: { name: 'Season', what: 'the whole year of all beds' },
      table: { name: 'Table', what: 'what comes to the kitchen, week by week' },
      handout: { name: 'Handout', what: 'sowing windows of this place, for teaching' },
      calendar: { name: 'Calendar file', what: 'the coming work, for any calendar' },
    },
  },
  season: {
    title: 'Season',
    lead: 'Time runs across, the length of each bed runs down. The stronger the shade of a patch, the surer it is ready to pick.',
    zoom: 'Zoom',
    year: 'Year',
    month: 'Month',
    week: 'Week',
    toToday: 'To today',
    sheet: 'Season sheet. Arrow keys go from patch to patch, Enter opens the stand, plus and minus zoom.',
    beds: 'Beds',
    trays: 'Trays',
    bedName: (name: string, length: string) => `${name}, ${length}`,
    trayName: (name: string, cells: string) => `${name}, ${cellsOf(cells)}`,
    cells: (n: string) => cellsOf(n),
    todayLine: 'today',
    legend: 'How to read it',
    legendReady: 'Chance that it is ready',
    legendFade: 'Fading end: it may be gone by then',
    legendPlanned: 'Dashed outline: planned',
    legendSown: 'Solid outline: sown',
    legendTicks: 'Notches: first pick in 1, 5 and 9 years of 10',
    legendFree: 'Dotted: room still free to use',
    none: 'Nothing is planned or sown yet. Say where the garden is, what beds it has and what you want to eat; a plan then fills this picture.',
    noneYet: 'Nothing is planned or sown yet. The garden is set up: a plan fills this picture.',
    list: 'All stands as a list',
    listOver: (n: string) => `Finished (${n})`,
  },
  panel: {
    title: 'Numbers',
    hint: 'Touch or point at a patch or a free place, or move to one with the keys.',
    readyNow: 'Ready to pick',
    sowNext: 'Sown next',
    pickNext: 'First picks to come',
    onDay: (day: string) => `On ${day}`,
    ready: (share: string) => `ready in ${share} of years`,
    gone: (share: string) => `${share} chance that it still stands there`,
    open: 'Open this stand',
    freeAt: (place: string) => `Free room in ${place}`,
    free: (from: string, to: string) => `${from} to ${to}`,
    moving: 'Move',
    fixed: 'Sown already: only what is still planned can be moved.',
    movable: 'Planned, so it can be moved: drag it, or use Shift with the arrow keys, or these.',
    earlier: 'A week earlier',
    later: 'A week later',
    up: 'Up the bed',
    down: 'Down the bed',
    moved: (stand: string) => `Moved: ${stand}.`,
    noRoom: (others: string) => `No room there: it would stand on ${others}.`,
    noRoomFor: (stand: string, others: string) =>
      `${stand}: no room where it was to go; it would stand on ${others}.`,
    undo: 'Undo the move',
    until: (day: string) => `until ${day}`,
    table: 'On the table:',
    weeksWith: (before: string, after: string) =>
      before === after
        ? `${weeksOf(after)} with some, as before`
        : `${weeksOf(after)} with some, instead of ${before}`,
    missing: (before: string, after: string) =>
      before === after ? `${after} missing, as before` : `${after} missing, instead of ${before}`,
    estimate:
      'A quick estimate, of what comes fresh from the beds alone; what keeps in store is reckoned once you hold still.',
    reaches: (wish: string, wanted: string, before: string, after: string) =>
      `${wish}: of ${wanted} wanted, ${before} would reach the table as it is, ${after} after the move.`,
    reckoned:
      'Reckoned over all weather years, for a year from today, with what keeps from one week to another.',
    always: 'as far as is planned',
    noFree: 'No free room that day.',
  },
  stand: {
    title: (crop: string, bed: string) => `${crop}, ${bed}`,
    labelled: (id: string) => `label ${id}`,
    code: 'Code of this stand, to scan',
    whyHere: 'Why so',
    back: 'Back to the season',
    where: 'Where',
    when: 'When',
    size: 'How many',
    state: 'State',
    success: 'Worth having',
    pulled: 'Picked',
    pulledOver,
    sun: 'Sun',
    place: (bed: string, from: string, to: string) => `${bed}, ${from} to ${to}`,
    tray: (tray: string, cells: string) => `first ${cellsOf(cells)} of ${tray}`,
    sownOn: (day: string) => `sown ${day}`,
    setOutOn: (day: string) => `plants set out ${day}`,
    sowOn: (day: string, crop: string) => `${isPlanted(crop) ? 'to plant' : 'to sow'} ${day}`,
    buyOn: (day: string) => `to buy and set out ${day}`,
    clumps: (n: string, per: string, setting: string) => `${clumpsOf(n)} of ${per}, ${setting}`,
    plants: (n: string, setting: string) => `${plantsOf(n)}, ${setting}`,
    setting: {
      square: (spacing: string) => `${spacing} apart`,
      offset: (spacing: string) => `${spacing} apart, every second row moved by half of it`,
      rows: (spacing: string, row: string) => `${spacing} apart in rows ${row} apart`,
    },
    years: (share: string) => `in ${share} of years`,
    limitedBy: (what: string) => `limited by ${what}`,
    states: { planned: 'planned', sown: 'sown', up: 'up', growing: 'growing', finished: 'finished' },
    overSince: (state: string, day: string) => `${state} since ${day}`,
    events: 'What comes when',
    eventNames: {
      emerge: 'Half are up',
      'set-out': 'Set out',
      'first-pick': 'First pick',
      'last-pick': 'Last pick',
    },
    eventsCaption:
      'Bars run from the day 1 year in 10 has reached it to the day 9 in 10 have; the mark is the middle.',
    early: 'Early (1 in 10)',
    middle: 'Middle',
    late: 'Late (9 in 10)',
    chance: 'Happens in',
    event: 'Event',
    fan: 'Weight of one plant',
    fanCaption:
      'Line: the middle year. Band: eight years in ten. What gets ready counts as taken at once, the largest first.',
    fanAt: (day: string, middle: string, low: string, high: string) =>
      `${day}: ${middle}, between ${low} and ${high}`,
    seen: {
      weighed: (day: string, grams: string) => `weighed ${day}: ${grams}`,
      felt: (day: string, grams: string) => `felt ${day}: about ${grams}`,
      'by eye': (day: string, grams: string) => `by eye ${day}: about ${grams}`,
    },
    fanNone: 'No growth is expected, so there is nothing to draw.',
    fanDay: 'Day shown',
    sizesOn: (day: string) => `How many are how large on ${day}`,
    sizesNote:
      'Left alone until then. Each row counts the plants of this size or larger, and what they weigh together.',
    sizeReached: 'This size or larger',
    sizesReached: { smallest: 'smallest', small: 'small', large: 'large', over_size: 'over-size' },
    sizeFrom: (grams: string) => `from ${grams}`,
    weeks: 'Picked or ready to pick, by week',
    week: 'Week of',
    low: 'Low (1 in 10)',
    high: 'High (9 in 10)',
    readyShare: 'Ready',
    weeksNone: 'No harvest is expected.',
    clumpsTitle: 'The bed, to scale',
    clumpsCaption: (side: string) =>
      `The stretch from above, to one scale; each ring is the room of one clump, ${side} across. Filled: the share of its final weight it should have by today.`,
    firstOf: (drawn: string, all: string) =>
      `Drawn: the first ${drawn} of ${all}; the break stands for the rest.`,
    tight: (needs: string, has: string) =>
      `At this spacing the rows take ${needs}; the stretch has ${has} (dashed line).`,
    nearer: (apart: string) =>
      `The last row is not full, so the rows stand ${apart} apart along the bed; every clump has its ground.`,
    facts: 'What was seen',
    factNames: {
      sown: 'Sown',
      emerged: 'Up',
      counted_plants: 'Counted',
      set_out: 'Set out',
      first_picked: 'First picked',
      picked_g: 'Picked so far',
      greens_g: 'Leaves picked so far',
      plants_removed: 'Taken out',
      measured_on: 'Measured',
      measured_g: 'Measured weight',
    },
    logbook: 'Logbook of this stand',
    factsNone: 'Nothing has been logged for this stand yet.',
    missing: (id: string) => `There is no stand ${id} in this garden.`,
  },
  /** A stand that no plan knows. */
  ownStand: {
    title: 'Put in by hand…',
    lead: 'What no plan knows: sown on a whim, bought as plants, or there already. Up to today it is written down as done, later it is planned; a plan leaves it where it is.',
    bed: 'Bed',
    count: 'How many',
    clumps: 'Of what is raised several to a cell, count the cells.',
    origin: 'Where the plants come from',
    origins: { here: 'sown here', tray: 'raised in a tray', bought: 'bought as plants' },
    days: { here: 'Sown on', tray: 'Sown in the tray on', bought: 'Set out on' },
    tray: 'Which tray',
    spacing: 'Spacing',
    perClump: 'Plants in a clump',
    asUsual: 'as usual',
    ownPlace: 'Choose the place along the bed',
    firstRoom: 'else where there is room first',
    from: 'From, along the bed',
    put: 'Put it in',
    notPut: 'Not put in:',
    done: 'It is put in.',
    open: 'Open its page',
    another: 'Put in another',
    displaced: (stands: string) =>
      `Planned there and now without room: ${stands}. A new plan finds another place.`,
    displacedByHand: (stands: string) =>
      `Put in by hand there and now without room: ${stands}. A plan leaves them alone: move them on the season sheet.`,
  },
  /** A stand put in by hand that never was. */
  mistake: {
    title: 'Put in by mistake…',
    lead: 'Takes it back altogether: nothing of it counts, not as a failure either. What was sown and came to nothing is logged as discarded instead.',
    put: 'Take it back',
    notPut: 'Not taken back:',
  },
  /** What is in the ground, and its place written down wrong. */
  elsewhere: {
    title: 'It stands elsewhere…',
    lead: 'Puts right where it was written down: nothing is moved in the garden.',
    put: 'Put it right',
    notPut: 'Not put right:',
    stretch: (from: string, to: string) => `${from} to ${to}`,
    done: (place: string) => `Put right: it stands in ${place}.`,
  },
  /** Setting plants out, of its tray or bought. */
  plants: {
    title: 'Setting out',
    instead: 'It is to be sown in place. Where plants are bought instead, say so here.',
    bought: 'The plants were bought',
    /** In the log. */
    mark: 'bought',
    byHand: 'put in by hand',
    moved: 'moved by hand: the next plan leaves it there',
    count: 'Plants',
    day: 'Set out on',
  },
  /** Beside today's work. */
  ahead: {
    title: 'The weeks ahead',
    thisWeek: 'This week',
    nextWeek: 'Next week',
    comes: 'Comes to the kitchen',
    nothing: 'Nothing from the beds.',
    more: (n: number) => `and ${n} more`,
    short: 'Less than is wished for',
    missing: (amount: string) => `${amount} short`,
    night: (degrees: string) => `A night of ${degrees} or colder`,
    day: (degrees: string) => `A day of ${degrees} or hotter`,
    inYears: (what: string, share: string) => `${what}: in ${share} of years`,
    table: 'All weeks',
  },
  today: {
    title: 'Today',
    lead: (day: string) => `${day}. First what costs most when left undone.`,
    none: 'Nothing needs doing this week.',
    due: (day: string) => `best ${day}`,
    latest: (day: string) => `costs after ${day}`,
    overdue: 'overdue',
    caution: 'Caution',
    log: (deed: string) => `Log: ${deed}`,
    logged: 'Logged',
    undo: 'Undo',
    undone: 'Taken back.',
    loggedToday: 'Logged today',
    amount: 'Amount',
    less: 'Less',
    more: 'More',
    /** Typed, and no amount; what it stays at. */
    noAmount: (typed: string, now: string) =>
      `“${typed}” is no amount here, such as 12 or 3.8: it stays ${now}.`,
    openStand: 'Stand',
    /** In place of "Set out" where the plants are to be bought. */
    buy: 'Buy and set out',
    kinds: {
      sow: 'Sow',
      'check-emergence': 'Look whether it is up',
      're-sow': 'Sow again',
      'harden-off': 'Harden off',
      'set-out': 'Set out',
      thin: 'Thin',
      pick: 'Pick',
      look: 'Look',
      finish: 'Clear',
      eat: 'Eat',
      'throw-away': 'Throw away',
      protect: 'Protect',
      water: 'Water',
      feed: 'Feed',
    } as Record<string, string>,
    count: 'pieces',
    onePiece: 'piece',
    /** Tubers and cloves are planted, not sown. */
    pieces: {
      /** Planting, by the kind of the task. */
      kinds: { sow: 'Plant', 're-sow': 'Plant again' } as Record<string, string>,
      done: 'planted',
      doneAgain: 'Nothing came: planted again',
    },
    /** What is counted, by the entry it goes into. */
    oneSeed: 'seed',
    counts: { sown: 'seeds', counted: 'up', 'set-out': 'set out', thinned: 'taken out' } as Record<
      string,
      string
    >,
    sownAgain: 'Nothing came: sown again',
    givenUp: 'Nothing came: clear the place',
    events: {
      sown: 'sown',
      counted: 'counted',
      'set-out': 'set out',
      thinned: 'taken out',
      watered: 'watered',
      fed: 'fed',
      measured: 'measured',
      picked: 'picked',
      stored: 'stored',
      eaten: 'eaten',
      discarded: 'thrown away',
      noted: 'noted',
    } as Record<string, string>,
    planAgain: 'Plan again',
    /** A sum of work, and in how many places. */
    together: (amount: string, places: string) =>
      amount ? `about ${amount} in ${places} places` : `in ${places} places`,
    firstAt: (place: string) => `first ${place}`,
    each: (n: string) => `Each of the ${n}`,
    doneToday: 'Done today',
    missedSowings: (n: number, days: string) =>
      `${n === 1 ? 'One sowing was' : `${n} sowings were`} missed by up to ${daysOf(days)}: planning again finds what still makes sense.`,
    sownAllTheSame: 'Sown all the same',
    later: (crops: string) => `Nothing to do yet, only to look at: ${crops}`,
    cleared: 'cleared',
    toStore: (place: string) => `Into store: ${place}`,
    all: 'All of it; nothing is left standing',
  },
  /** What the program says, by its keys (docs/api/today.schema.json). Values come in words already. */
  said: {
    stretch: (v) => `${v.bed}, ${v.from_m} to ${v.to_m}`,
    'named-place': (v) => `${v.name}`,
    'a-tray': () => 'tray',
    store: (v) => `in store: ${places[v.place as keyof typeof places]}`,
    'sow-cells': (v) => `${cellsOf(v.cells)}, ${seedsEach(v)}`,
    'sow-places': (v) => `${placesApart(v)}, ${seedsEach(v)}`,
    'plant-places': (v) => `${placesApart(v)}, one piece each, ${v.depth_mm} deep`,
    'plant-cells': (v) => `${cellsOf(v.cells)}, one rooted slip or piece each`,
    'sow-tray-cells': (v) => `${cellsOf(v.cells)}, ${seedsOf(v.seeds, false)} each`,
    'pot-on': (v) => `${v.cells} into ${v.width_mm}`,
    'look-and-count': () => 'look for seedlings and count them',
    'look-and-take-off-mat': () => 'look for seedlings, count them and take what is up off the mat',
    'look-or-sow': (v) => `look; if nothing shows, ${seedsOf(v.seeds, false)} again`,
    'off-the-mat': () => 'take what is up off the mat',
    'look-for-shoots': () => 'look for shoots and count them',
    'look-or-plant': (v) => `look; if nothing shows, plant ${seedsOf(v.pieces, true)} again`,
    'look-if-dead': () => 'look; log what is gone, and sow again or buy plants',
    'look-if-planted-dead': () => 'look; log what is gone, and plant again',
    'look-or-buy': () => 'look; log what is gone, and buy plants',
    'look-or-resow': () => 'look; log what is gone, and sow again',
    'give-place': () => 'give the place to another crop',
    'look-and-clear': () => 'look, and clear the place',
    'compost-or-try': () => 'compost them, or set a few out to try',
    'look-or-leave': () => 'look; if nothing shows, give the place to another crop',
    harden: (v) => `${daysOf(v.days)} outside, longer each day`,
    'set-clumps': (v) => `${clumpsOf(v.count)}${apart(v.count, v)}`,
    'buy-plants': (v) =>
      `buy ${v.count} ${v.count === '1' ? 'plant and set it' : 'plants and set them'} out${apart(v.count, v)}`,
    'set-plants': (v) => `${plantsOf(v.count)}${apart(v.count, v)}`,
    leave: (v) => `leave ${v.plants} in each place, ${v.spacing_mm} apart`,
    'pick-about': (v) => `about ${v.middle_g} in seven days (${v.low_g} to ${v.high_g})`,
    'pick-perhaps': (v) =>
      `in seven days something to pick in ${v.chance_share} of the years: about ${v.middle_g} then, seldom over ${v.high_g}`,
    'pull-all': (v) => `all of it, about ${v.weight_g}`,
    'pull-largest': (v) =>
      `${v.plants === '1' ? 'the largest one' : `the ${v.plants} largest`}, about ${v.weight_g}; the others grow on`,
    'pull-one-of-few': (v) =>
      `the largest one, about ${v.weight_g}, unless one was taken in the last ${v.weeks === '1' ? 'week' : `${v.weeks} weeks`}`,
    'pull-largest-each': (v) => `the largest of every clump, about ${v.weight_g}; the others grow on`,
    'may-wait': (v) =>
      `about ${v.weight_g} by now; ${weeksOf(v.weeks)} more ${v.weeks === '1' ? 'adds' : 'add'} about ${v.gain_g}`,
    'lift-and-store': (v) =>
      `lift all of it, about ${v.weight_g}, and store it ${storedIn(v.place)}, where it keeps until about ${v.until}`,
    'take-and-freeze': (v) =>
      `all of it, about ${v.weight_g}, to eat or to freeze (${blanching(v.of_crop)}), or cover it on cold nights`,
    'take-or-cover': (v) =>
      `all of it, about ${v.weight_g} (${storedIn(v.place)} it keeps until about ${v.until}), or cover it on cold nights`,
    'pick-ready': () => 'what is ready',
    clear: () => 'clear the place',
    cover: () => 'cover on cold nights',
    'look-over': (v) => `${v.weight_g}: look it over, eat what is good and discard the rest`,
    weight: (v) => `${v.weight_g}`,
    'half-up': (v) => `half of it shows ${v.days}`,
    'first-pick': (v) =>
      `first pick ${v.days} (8 years in 10); worth having in ${v.success_share} of the weather years`,
    'log-stand-over': (v) => `by the log stand ${v.stand} is over: all of it was picked or cleared`,
    'log-before-stand': (v) => `${v.day} lies before stand ${v.stand} began, or is to begin, ${v.first}`,
    'log-long-after': (v) =>
      `${v.day} is ${daysOf(v.days)} after the last day known of stand ${v.stand}, ${v.last}`,
    'log-place-taken': (v) =>
      `by the log ${v.other} (${v.crop}) stands in that place: log its end, or move the one that is elsewhere`,
    'log-many-seeds': (v) => `${seedsOf(v.seeds, false)}, where the plan has ${v.planned}`,
    'log-few-seeds': (v) => `${seedsOf(v.seeds, false)}, where the plan has ${v.planned}`,
    'log-no-seeds': (v) =>
      `no seeds, where the plan has ${v.planned}: where nothing was sown no entry is needed`,
    'log-many-pieces': (v) => `${seedsOf(v.pieces, true)}, where the plan has ${v.planned}`,
    'log-few-pieces': (v) => `${seedsOf(v.pieces, true)}, where the plan has ${v.planned}`,
    'log-no-pieces': (v) =>
      `no pieces, where the plan has ${v.planned}: where nothing was planted no entry is needed`,
    'log-planted-before': (v) =>
      `stand ${v.stand} was planted already on ${v.day}: the pieces of both add up`,
    'log-shoots': (v) =>
      `${v.shoots} ${v.shoots === '1' ? 'shoot is' : 'shoots are'} taken as ${plantsOf(v.plants)}: a piece sends up several, and no more were planted`,
    'log-more-than-sown': (v) =>
      `${plantsOf(v.plants)}, where by the log ${seedsOf(v.seeds, false)} ${wasOrWere(v.seeds)} sown`,
    'log-more-out-than-raised': (v) =>
      `${plantsOf(v.plants)}, where by the log ${v.raised} ${wasOrWere(v.raised)} raised`,
    'log-more-out-than-planned': (v) =>
      `with this ${plantsOf(v.plants)} ${wasOrWere(v.plants)} set out, where the plan has ${v.planned}`,
    'log-much-for-ground': (v) =>
      `with this ${v.picked_g} of stand ${v.stand} were picked, and its ground gives hardly more than ${v.most_g}`,
    'log-little-for-plants': (v) =>
      `${v.picked_g} is little for ${plantsOf(v.plants)}: look at the weight once more`,
    'log-little-for-plants-unit': (v) =>
      `${v.picked_g} is little for ${plantsOf(v.plants)}: look at the weight and its unit once more`,
    'log-sown-before': (v) => `stand ${v.stand} was sown already on ${v.day}: the seeds of both add up`,
    'log-day-ahead': (v) =>
      `its day lies ${daysOf(v.days)} after ${v.today}, today by the clock of this machine: what is logged was done`,
    'log-before-its-day': (v) => `${v.day} is ${daysOf(v.days)} before the day planned, ${v.planned_day}`,
    'log-after-its-day': (v) => `${v.day} is ${daysOf(v.days)} after the day planned, ${v.planned_day}`,
    'log-more-than-counted': (v) =>
      `${plantsOf(v.plants)}, where by the log ${v.left} ${isOrAre(v.left)} left of the ${v.stood} counted`,
    'log-more-than-planned': (v) =>
      `${plantsOf(v.plants)}, where by the log ${v.left} ${isOrAre(v.left)} left of the ${v.stood} planned`,
    'log-many-thinned': (v) =>
      `${v.thinned} ${v.thinned === '1' ? 'seedling' : 'seedlings'} thinned in all, of ${seedsOf(v.seeds, false)}: at most ${v.left} of the ${v.planned} planned ${isOrAre(v.left)} left`,
    'log-diameter-unread': (v) =>
      `a diameter tells no weight of ${v.crop}, so it changes nothing: weigh one, or some together, instead`,
    'log-measured-early': (v) =>
      `${v.day} is early for a measure: of stand ${v.stand} hardly anything is up before ${v.up}`,
    'log-measured-heavy': (v) =>
      `${v.plant_g} a plant, where by the weather ${v.likely_g} is much that day: look at the unit and the digits`,
    'log-greens-as-roots': (v) =>
      `it speaks of leaves, and whole plants of ${v.crop} are taken as pulled: for leaves alone the text is to begin with the word leaves`,
    'log-leaves-as-roots': (v) => `it speaks of leaves, and whole plants of ${v.crop} are taken as pulled`,
    'log-stored-unpicked': (v) =>
      `nothing was picked of stand ${v.stand} by the log: log the picking too, or correct the stand`,
    'log-more-stored': (v) =>
      `with this ${v.stored_g} of stand ${v.stand} were stored, and ${v.picked_g} picked`,
    'log-nothing-in-store': (v) =>
      `nothing of stand ${v.stand} lies in store that day, and the store stays as it is`,
    'log-nothing-of-lot': (v) =>
      `nothing of the lot ${v.lot} lies in store that day, and the store stays as it is`,
    'log-little-in-store': (v) => `only ${v.there_g} of stand ${v.stand} lay in store`,
    'log-little-of-lot': (v) => `only ${v.there_g} of the lot ${v.lot} lay in store`,
    'picked-from': (v) =>
      `picked from ${v.day} on, the plan’s day (ready ${v.days} in 8 years of 10); worth having in ${v.success_share} of the weather years`,
    'no-harvest': () => 'no harvest in sight in any of the weather years: think again before sowing',
    missed: (v) => `missed by ${daysOf(v.days)}: planning again finds what still makes sense`,
    'tray-too-late': (v) =>
      `overgrown in the tray or too late for the season: set out now it brings a harvest worth having in ${v.success_share} of the weather years`,
    'likely-killed': (v) => `the night of ${v.night_c} on ${v.day} has likely killed it`,
    'stand-over': (v) => `over since ${v.day}`,
    'judged-as-set-out': (v) => `By the log it stands in its tray; judged as set out on ${v.day}.`,
    'past-eating': (v) => `likely past eating since ${v.day}`,
    'to-set-out': (v) => `to be set out about ${v.day}`,
    'harden-bought': (v) => `plants from a warm house stand outside by day for ${daysOf(v.days)} first`,
    'fit-to-set-out': (v) => `strong enough and mild enough ${v.days}`,
    crowded: (v) => `about ${v.seedlings} seedlings stand in each place; crowded ones stay small`,
    ready: (v) => `ready with ${v.chance_share} chance`,
    'kitchen-short': (v) => `the kitchen lacks ${v.short_g} this week`,
    past: (v) => `past its time since ${v.day}`,
    'killing-night': (v) =>
      `a night of ${v.night_c} or colder, which kills half of it, comes within ${daysOf(v.days)} in ${v.chance_share} of the weather years`,
    'too-little-sun': (v) =>
      `it needs ${v.needed_h} hours of direct sun a day or more, and ${v.bed} has less than ${v.less_than_h}: it will give less, and later`,
    'others-grow-on': () => 'the largest are large enough, and the others grow on',
    'waiting-adds-little': () => 'waiting adds little, or costs some',
    'frost-by-then': (v) =>
      `in ${v.lost_years} of ${v.years} years frost has ended it within ${weeksOf(v.weeks)}`,
    'in-store': (v) => `in store since ${v.since}; keeps until about ${v.until}`,
    'kept-until': (v) => `in store since ${v.since}; kept until about ${v.until}, which is past`,
    'heat-near-water': () =>
      'Electric heat near water: follow the maker’s instructions and use a residual-current device.',
    'should-be-up': (v) => `should be up since ${v.by}: in 9 of 10 cases half would have shown by then. Look`,
    'place-taken': (v) =>
      `its place is taken by ${v.stand} (${v.crop}), which stands there until about ${v.until}: move this one or plan again`,
    'none-left': (v) => `nothing was left by the count of ${v.day}`,
    'buy-again': (v) =>
      `plants that are bought may be set out until about ${v.by} (set out today they bring a harvest worth having in ${v.success_share} of the years)`,
    'next-days-to-buy': (v) => `the next days to set out bought plants here are ${v.from} to ${v.to}`,
    'too-late-to-buy': () => 'too late to set out bought plants in its place',
    'none-came': (v) => `nothing showed on ${v.day}`,
    'should-show': (v) => `half should have shown by ${v.by} in 9 of 10 cases (${v.today_share} by today)`,
    'nothing-yet': () => 'nothing to do yet',
    'too-late-again': (v) =>
      `sown again today it brings a harvest worth having in only ${v.success_share} of the years: too late`,
    'next-days-again': (v) => `too late to sow it again now: its next days here are ${v.from} to ${v.to}`,
    'too-late-to-plant-again': (v) =>
      `planted again today it brings a harvest worth having in only ${v.success_share} of the years: too late`,
    'next-days-to-plant-again': (v) =>
      `too late to plant it again now: its next days here are ${v.from} to ${v.to}`,
    'no-days-again': () =>
      'too late: by the windows no day of the year suits it here, so give the place to another crop',
    'plant-again': (v) =>
      `plant again by about ${v.by} (planted today it brings a harvest worth having in ${v.success_share} of the years${v.first_pick ? `, first pick about ${v.first_pick}` : ''})`,
    'sow-again': (v) =>
      `sow again by about ${v.by} (sown today it brings a harvest worth having in ${v.success_share} of the years${v.first_pick ? `, first pick about ${v.first_pick}` : ''})`,
    'ripe-by-today': (v) => `About ${v.now_g} are ripe by today.`,
    'frost-will-have-ended': (v) =>
      `In ${v.lost_years} of ${v.years} years frost has ended it within ${weeksOf(v.weeks)}: take all of it now, about ${v.now_g}.`,
    'store-in': (v) => `Stored ${storedIn(v.place)} it keeps until about ${v.until}.`,
    'keeps-short': (v) =>
      `It keeps ${storedIn(v.place)} only until about ${v.until}; a cover on cold nights is the other way.`,
    'greens-freeze': (v) =>
      `What is not eaten soon can be frozen (${blanching(v.of_crop)}); a cover on cold nights is the other way.`,
    'week-costs': (v) =>
      `Left for a week, about ${v.cost_g} less come in by then: what hangs longer grows coarse or drops.`,
    'next-picking': (v) =>
      `The next picking is ${v.days === '1' ? 'tomorrow' : `in ${daysOf(v.days)}`}: about ${v.middle_g} (${v.low_g} to ${v.high_g}).`,
    'last-picking': () => 'It is the last picking.',
    'next-cut': (v) =>
      `It can be cut again ${v.days === '1' ? 'tomorrow' : `in about ${daysOf(v.days)}`}: ${v.middle_g} (${v.low_g} to ${v.high_g}).`,
    'is-past': (v) =>
      `In ${v.past_years} of ${v.years} years ${limits[v.cause ?? ''] ?? v.cause} has ended it before today: what is still good comes in now.`,
    'ripens-not': () => 'Nothing ripens within three weeks.',
    'ends-it': (v) =>
      `In ${v.lost_years} of ${v.years} years ${limits[v.cause ?? ''] ?? v.cause} ends it within ${v.weeks === '1' ? 'a week' : `${v.weeks} weeks`}.`,
    'leaves-for-kitchen': (v) =>
      `The week lacks ${v.short_g} of cooking greens: what may be taken of these leaves at once gives ${v.now_g} today and costs the roots ${v.cost_g} in ${weeksOf(v.weeks)}.`,
    'kitchen-lacks': (v) => `The kitchen lacks ${v.short_g} this week.`,
    'next-loses': (v) =>
      `What comes next on this ground loses as much as ${v.week_g} for every week it waits${v.since ? ` from ${v.since} on` : ''}.`,
    'waiting-adds': (v) =>
      `Waiting ${v.weeks === '1' ? 'a week' : `${v.weeks} weeks`} adds about ${v.middle_g} (${v.low_g} to ${v.high_g}).`,
    'largest-come-to': (v) =>
      `The largest of every clump come to ${v.now_g}; the others gain ${v.gain_g} from their light in two weeks.`,
    'plan-pulls': (v) => `The plan leaves it standing and picks it ${pulledOver(v.pull_weeks, v.pull_from)}.`,
    'plan-pulls-one': (v) =>
      `The plan picks it ${pulledOver(v.pull_weeks, v.pull_from)}: one of about ${v.plant_g} every ${v.each_weeks === '1' ? 'week' : `${v.each_weeks} weeks`}.`,
    'plan-pulls-now': (v) =>
      `The plan picks it ${pulledOver(v.pull_weeks, v.pull_from)}: about ${v.middle_g} in the next seven days (${v.low_g} to ${v.high_g}).`,
    'plan-before-most': (v) =>
      `Left whole it would be worth most in ${weeksOf(v.weeks)}; the plan has it over all its weeks instead.`,
    'outgrows-plan': (v) =>
      `Within ${weeksOf(v.weeks)} ${v.over_share} of the plants are over-size, more than the plan picks by then: take the largest now.`,
    'still-small': (v) =>
      `Its day has come, but plants of ${v.now_g} are less than small ones, which weigh ${v.small_g}: they are left to grow.`,
    'ends-before-eaten': (v) =>
      `In ${v.lost_years} of ${v.years} years ${limits[v.cause ?? ''] ?? v.cause} ends it within ${weeksOf(v.weeks)}, and the plan picks only ${v.planned_g} by then: take all of it now, about ${v.now_g}, to eat or to store.`,
    'good-until': (v) => `From about ${v.day} on nothing good is likely left of it.`,
    'largest-meet': (v) =>
      v.plants === '1'
        ? 'The largest one meets what the kitchen lacks.'
        : `${v.plants} of the largest meet what the kitchen lacks.`,
    'largest-in-part': (v) =>
      v.plants === '1'
        ? 'Only the one that is large already goes: the others bring far more by waiting.'
        : `Only the ${v.plants} that are large already go: the others bring far more by waiting.`,
    'plant-weighs': (v) =>
      `A plant weighs ${v.now_g} now and ${v.middle_g} in a week (${v.low_g} to ${v.high_g}).`,
    sizes: (v) =>
      `${v.large_share} of the plants are of the large size, ${v.over_share} beyond it, ${v.small_share} small, ${v.too_small_share} too small.`,
    'cut-brings-more': (v) =>
      `A cut of half the leaf takes ${v.now_g}; with what grows again that is ${v.change_g} more in three weeks than leaving it.`,
    'cut-brings-less': (v) =>
      `A cut of half the leaf takes ${v.now_g}; with what grows again that is ${v.change_g} less in three weeks than leaving it.`,
    'want-short': (v) => `${v.want}: the plan gives ${v.met_share} of the ${v.wanted_g} wanted`,
    'no-week': () => 'no week of the plan gives a harvest here',
    'no-week-often-enough': (v) =>
      `no week of the plan gives a harvest here often enough (${limits[v.cause ?? ''] ?? v.cause})`,
    'too-late-this-season': (v) =>
      `it is too late for this season (${limits[v.cause ?? ''] ?? v.cause}), and the next one’s harvest comes after the last week of the plan`,
    'harvest-after-plan': () => 'its harvest would come after the last week of the plan',
    'no-bed': () => 'the garden has no bed',
    'no-tray-to-raise-it': () =>
      'it is not sown in place and the garden has no tray to raise it in: describe a tray, or say of the wish that its plants are bought',
    'no-bed-for-it': () => 'no bed has the sun or the width it needs',
    'no-cells-to-raise-it': () =>
      'no tray has the cells that one of it takes: describe a tray with more or larger cells, or say of the wish that its plants are bought',
    'not-ready-then': () =>
      'nothing can be ready, or still be good in store, in most of the weeks it is short',
    'beds-taken': () => 'beds are taken by what counts more',
    'cells-taken': () => 'the cells of the trays are taken by what counts more',
    'mat-taken': () => 'the warm cells are taken by what counts more',
    'hours-taken': () => 'it would take more work than a week has for it',
    'seed-to-be-bought': () => 'seed would have to be bought for it',
    'more-comes-when-enough': () => 'more of it would mostly come when there is enough',
    'only-small-stands-left': () =>
      'what room is left is too small, or too short of time, for a stand worth its trouble',
    'weather-of-some-years': () => 'most years have enough, and the weather of some does not',
    'packet-too-small': (v) =>
      `the packet of ${v.crop} (${v.packet}) holds ${seedsOf(v.seeds, false)}; the plan sows ${v.sown}`,
    'seed-to-buy': (v) => `no packet of ${v.crop} (the plan sows ${v.sown})`,
    'seed-reckons-more': () =>
      'the page Seed reckons how much to buy, with age, losses and cold soil counted',
    'weather-ends': (v) =>
      `the weather ahead covers only ${v.weeks} of the ${v.asked} weeks asked for; the plan ends there`,
    'total-left-out': (v) => `${v.want}: the last day lies outside the plan; the total is left out`,
    'choices-cut-short': (v) =>
      `the time limit left time for ${v.seen} of the ${v.of} sowings that could be looked at; give more for a better plan`,
    'store-counted': (v) =>
      v.eat_by === undefined
        ? `${v.total_g} of ${v.crop} in store count for the table, until ${v.to} at the latest`
        : `${v.total_g} of ${v.crop} in store count for the table: about ${v.good_then_g} are still good on ${v.eat_by}, the last day by which the store says to eat them, and what is sorted out good counts until ${v.to} at the latest`,
    'stand-without-bed': (v) =>
      `the stand with label ${v.stand} has no bed of this garden; it counts for the table, not for the room`,
    'stand-beyond-plan': (v) =>
      `the stand with label ${v.stand} begins after the weeks that this plan looks at; its place is kept, and nothing of it counts`,
    'aged-by-equation': (v) =>
      `${v.fresh_share} when packed, ${yearsOf(v.age_years)} at ${v.store_c} and ${v.moisture_share} water by the viability equation: ${v.expected_share}`,
    'aged-by-life': (v) =>
      `${v.fresh_share} when packed, ${yearsOf(v.age_years)} dry at ${v.store_c}, and half is left after ${v.life_years} as such seed is commonly kept: ${v.expected_share}`,
    'packet-comes-up': (v) =>
      `of packet ${v.packet}, ${v.middle_share} come up today (${v.low_share} to ${v.high_share})`,
    tested: (v) =>
      `${v.day}: ${v.before_share} as if from ${seedsOf(v.seeds, false)}, and ${v.came_up} of ${v.sown} came up`,
    'come-up': (v) => `${v.middle_share} come up today (${v.low_share} to ${v.high_share})`,
    renew: () => 'less than half of a fresh packet: renew it',
    'test-first': (v) =>
      `${yearsOf(v.age_years)} old, and seed of ${v.crop} is said to keep ${v.life_years}: lay out 20 on damp paper first`,
    'sow-thicker': (v) => `sow ${v.times} times as thick as fresh seed`,
    'sow-thicker-than-told': (v) =>
      `sow ${v.times} times as thick as told here, which reckons with fresh seed`,
    'fresh-packet': (v) => `a fresh packet ${v.fresh_share}`,
    'stand-changed': (v) =>
      `${v.crop} (${v.stand}): ${[
        v.days_later && `sown ${daysOf(v.days_later)} later`,
        v.days_earlier && `sown ${daysOf(v.days_earlier)} earlier`,
        v.clumps && `${v.clumps} instead of ${v.clumps_before}`,
        v.bed && `in ${v.bed} instead of ${v.bed_before}`,
        v.tray && `raised in ${v.tray} instead of ${v.tray_before}`,
        v.pick_weeks &&
          `picked ${pulledOver(v.pick_weeks, v.pick_from)} instead of ${pulledOver(v.pick_weeks_before, v.pick_from_before)}`,
      ]
        .filter(Boolean)
        .join(', ')}`,
    'stand-left-out': (v) => `${v.crop} (${v.stand}): left out (${v.clumps} on ${v.sow} in ${v.bed})`,
    'place-taken-meanwhile': (v) =>
      `${v.crop}: left out (${v.clumps} on ${v.sow} in ${v.bed}), since its place was taken while the plan was made`,
    'no-longer-fits': (v) =>
      `${v.crop}: left out (${v.clumps} on ${v.sow} in ${v.bed}), since its bed, tray, packet or variety was changed while the plan was made`,
    'stand-changed-meanwhile': (v) =>
      `${v.crop} (${v.stand}): stays as it is, since it was begun or moved while the plan was made`,
    'stand-new': (v) => `${v.crop}: new, ${v.clumps} on ${v.sow} in ${v.bed}`,
    'nobody-asks': () => 'no wish asks for it any more',
    'bought-left-out': (v) =>
      `${v.crop} (${v.stand}): left out (${v.clumps} to buy for ${v.set_out} in ${v.bed})`,
    'bought-new': (v) => `${v.crop}: new, ${v.clumps} to buy for ${v.set_out} in ${v.bed}`,
    'day-is-past': () => 'its day to sow is past',
    'day-to-buy-is-past': () => 'its day to buy is past',
    'bed-is-gone': () => 'its bed is no longer there',
    'sowing-then-fails': (v) =>
      `begun on its old day it fails too often (${limits[v.cause ?? ''] ?? v.cause})`,
    'asked-in-other-weeks': () => 'the wishes ask for it in other weeks now',
    'better-sowing-near': () => 'another day is better in every way',
    'ground-held-by': (v) =>
      `${v.crop} (${v.stand}) holds its old ground then${v.until ? `, until ${v.until} in most years` : ''}`,
    'ground-goes-to': (v) =>
      `${v.crop} (${v.stand}) has its old ground now, and without that the table would lose ${servingsOf(v.servings)}`,
    'stand-failed-since': (v) =>
      `since the last plan ${v.crop} (${v.stand}) came to nothing (log of ${v.on})`,
    'stand-fewer-since': (v) =>
      `since the last plan ${v.crop} (${v.stand}) was found to have ${v.plants} of the plants planned, ${v.planned} in all (log of ${v.on})`,
    'stand-over-since': (v) =>
      `since the last plan ${v.crop} (${v.stand}) was picked to its end (log of ${v.on})`,
    'ground-free-since': (v) => `the ground of ${v.crop} (${v.stand}) is free since ${v.on}`,
    'want-more-since': (v) => `more ${v.want} is wished for than for the last plan`,
    'want-less-since': (v) => `less ${v.want} is wished for than for the last plan`,
    'want-new-since': (v) => `${v.want} was not wished for yet for the last plan`,
    'family-held-off-by': (v) => `${v.crop} (${v.stand}) is of its family, which must rest on that ground`,
    'as-it-was-loses': (v) => `as it was, the table would lose ${servingsOf(v.servings)} more`,
    'soil-colder-than-planned': (v) =>
      `in the week of sowing the soil is ${v.by_k} colder than the ${v.planned_c} planned for`,
    'soil-warmer-than-planned': (v) =>
      `in the week of sowing the soil is ${v.by_k} warmer than the ${v.planned_c} planned for`,
    'air-colder-than-planned': (v) =>
      `in its first weeks the air is ${v.by_k} colder than the ${v.planned_c} planned for`,
    'air-warmer-than-planned': (v) =>
      `in its first weeks the air is ${v.by_k} warmer than the ${v.planned_c} planned for`,
    'ground-serves-more': () => 'its ground, cells or hours bring more with something else',
    'plants-to-buy': (v) => `${plantsOf(v.plants)} to buy, set out on ${v.set_out}`,
    'goes-out': (v) => `it is set out in the week of ${v.week}`,
    'stand-brings': (v) =>
      `${clumpsOf(v.clumps)} ${v.clumps === '1' ? 'brings' : 'bring'} about ${v.total_g}, picked in the weeks of ${v.days}`,
    'brings-nothing': () => 'brings nothing within the plan',
    'missed-without': (v) => `without it the table would lose ${servingsOf(v.servings)}`,
    'earlier-costs': (v) => `a week earlier would cost ${servingsOf(v.servings)}`,
    'earlier-brings': (v) =>
      `a week earlier would bring ${servingsOf(v.servings)} more if the place were free then`,
    'one-more': (v) => `one clump more would bring ${servingsOf(v.servings)}`,
    'one-more-brings-nothing': () => 'one clump more would bring nothing worth naming',
    'one-fewer': (v) => `one fewer would lose ${servingsOf(v.servings)}`,
    'earlier-is-past': () => 'a week earlier is past',
    'earlier-is-none': () => 'a week earlier is not worth trying here',
    'later-costs': (v) => `a week later would cost ${servingsOf(v.servings)}`,
    'later-brings': (v) =>
      `a week later would bring ${servingsOf(v.servings)} more if the place were free then`,
    'later-is-none': () => 'a week later is not worth trying here',
    'bears-part-shade': () => 'it bears part shade and leaves full sun to others',
    'full-sun-gives-more': () => 'it bears part shade, and full sun gives more',
    'first-on-its-ground': () => 'nothing of the plan stands on its ground before it',
    'needs-full-sun': () => 'it needs full sun',
    'less-in-part-shade': () => 'it wants full sun and gives less in part shade, as is reckoned',
    'less-in-shade': () => 'it gives less in shade, as is reckoned',
    follows: (v) => `it follows ${v.crop} (${v.stand}) on its ground`,
    'follows-hungry': (v) => `it follows ${v.crop} (${v.stand}), a hungry crop, and needs little itself`,
    'follows-hungry-itself-hungry': (v) =>
      `it follows ${v.crop} (${v.stand}), and both are hungry: feed the ground between them`,
    succeeds: (v) => `it succeeds in ${v.success_share} of the years`,
    'metre-in-sun': (v) => `${v.length_m ?? 'a metre'} of bed in full sun, ${v.width_m} wide`,
    'metre-in-part-shade': (v) => `${v.length_m ?? 'a metre'} of bed in part shade, ${v.width_m} wide`,
    'metre-in-shade': (v) => `${v.length_m ?? 'a metre'} of bed in shade, ${v.width_m} wide`,
    'bed-unused': (v) => `${v.bed} stays empty: nothing is planned there`,
    'bed-little-used': (v) => `${v.bed} is used for ${v.used_share} of its ground and weeks only`,
    'earlier-bought': (v) =>
      `${v.crop} bought and set out a week before ${v.set_out} (in the way then: ${limits[v.cause ?? ''] ?? v.cause})`,
    'earlier-in-place': (v) =>
      `${v.crop} sown in place a week before ${v.sow} (in the way then: ${limits[v.cause ?? ''] ?? v.cause})`,
    'earlier-in-tray': (v) =>
      `${v.crop} sown in ${v.tray} a week before ${v.sow} (in the way then: ${limits[v.cause ?? ''] ?? v.cause})`,
    'helps-want': (v) => `${v.weight_g} more of ${v.want}`,
    'cells-of-tray': (v) => `${cellsOf(v.cells)} of ${v.tray}`,
    'cells-on-mat': (v) => `room for ${cellsOf(v.cells)} more on the mat of ${v.tray}`,
  } as Record<string, (v: Record<string, string>) => string>,
  trial: {
    make: 'Only try',
    whatIf: 'What if there were',
    whatIfNote: 'Works out a plan and shows what it would change; nothing is kept.',
    asItIs: 'the garden as it is',
    longer: (bed: string, length: string) => `${bed}, ${length} longer`,
    oneMore: (tray: string) => `one more tray like ${tray}`,
    times: (wish: string, times: string) => `${times} times the wish for ${wish}`,
    stop: 'Stop and show the best so far',
    done: 'The plan was only tried. The garden is as it was.',
    title: 'Only tried',
    lead: 'This is how the garden would be planned. Nothing of it is kept yet.',
    leadOther:
      'This is how a garden with that change would be planned. To have it, change the garden itself and plan then.',
    keep: 'Keep it',
    leave: 'Leave it as it is',
    table: 'What the table would get',
    tableNote: 'In the mean of the weather years, over the weeks of a year from today.',
    now: 'As it is',
    then: 'With this plan',
  },
  plan: {
    title: 'Plan',
    lead: 'Works out what to sow, how much, when and where, so that the table gets what it asks for.',
    make: 'Plan from today',
    guard: 'Guard against bad years (slower)',
    longer: 'Search three times as long',
    kept: 'Kept of what the wishes are worth',
    keptIn: (usual: string, most: string, unseen: string, bad: string) =>
      `${usual} in the mean of the years; more than ${most} could not be had of these beds and sowings. In other weather years ${unseen}, in the worst fifth ${bad}`,
    keeps: 'What has been sown stays as it is. What was only planned is planned anew.',
    stop: 'Stop and keep the best so far',
    working: 'Planning …',
    progress: (seconds: string, gap: string) =>
      `${seconds} s; of what this plan loses, a better one could save at most ${gap}`,
    progressNoBound: (seconds: string) => `${seconds} s`,
    /** Before there is a first plan. */
    layingOut: (seconds: string, share: string) =>
      `${seconds} s; the sowings to choose from are being laid out, ${share} done`,
    stopped: 'Stopped before there was a plan; what was planned stays.',
    done: 'The new plan is in the garden.',
    failed: 'No plan was made:',
    none: 'The garden has no plan yet.',
    noneSince: 'Nothing is known here of how it was planned. What is planned already is on the season sheet.',
    result: 'What it came to',
    gap: 'Of what is lost, a better plan could save at most',
    status: 'Ended by',
    statuses: {
      'gap reached': 'being good enough',
      'time limit': 'the time limit',
      stopped: 'being stopped',
      'rounds done': 'having tried all its rounds',
    } as Record<string, string>,
    seconds: 'Took',
    stands: 'New stands',
    met: 'What each wish gets',
    want: 'Wish',
    wanted: 'Asked for',
    supplied: 'Comes',
    share: 'Met',
    unmet: 'Wishes that get nothing',
    unmetSince: (wish: string, reason: string) => `${wish}: ${reason}.`,
    unmetUntold: 'the plan tells no reason',
    heldBack: (reason: string, wishes: string) => `Short, since ${reason}: ${wishes}.`,
    notes: 'What limits it',
    shortages: 'Weeks that fall short',
    weeks: (n: number) => weeksOf(String(n)),
    when: 'When',
    missing: 'Missing',
    chance: 'In',
    leftOut: (n: number, share: string) =>
      `${n === 1 ? 'One more week is' : `${n} more weeks are`} short in fewer than ${share} of years.`,
    compared: 'Before and after',
    waiting: (n: string) => `Left standing until wanted (${n})`,
    pulled: (stand: string, weeks: string) => `${stand}: picked ${weeks}`,
    beforePlan: 'Planned before',
    afterPlan: 'Planned now',
    changesCount: (n: string, same: string) =>
      `${n} ${n === '1' ? 'change' : 'changes'}, ${same} ${same === '1' ? 'sowing' : 'sowings'} as before.`,
    changeKinds: { same: 'as before', changed: 'changed', new: 'new', gone: 'dropped' },
    noShortages: 'No week falls short.',
    changesWhy: 'What changed, and why',
    worths: 'What would bring more',
    worthsNote: 'Each by itself, at most, in servings over the whole plan.',
    worth: (servings: string, what: string) => `${servingsOf(servings)}: ${what}`,
  },
  table: {
    title: 'Table',
    lead: 'What reaches the kitchen each week, fresh or out of store, against what it asks for.',
    caption:
      'The middle of the weather years. What is too much for one week lies over for the next as long as it keeps. Shade and percent: share of the wish that is met.',
    inAll: (got: string, wanted: string, share: string) => `${got} of ${wanted}: ${share}`,
    partWeek: (days: number) => (days === 1 ? 'this week, its last day' : `this week, ${days} days left`),
    unplanned: 'not planned yet',
    beyondPlan:
      'Weeks that are “not planned yet” lie beyond the plan and beyond the last harvest of the wish: they say nothing of how good the plan is, and the sums leave them out. A new plan nearer to them fills them.',
    fromStore: 'out of store',
    fromStoreMean: 'Out of store, mean of the years',
    shortIn: 'Short of it in',
    want: 'Wanted',
    week: 'Week of',
    perWeek: (amount: string) => `${amount} a week`,
    amounts: { servings: servingsOf, pieces: (n: string) => seedsOf(n, true) },
    notWanted: 'not asked for',
    none: 'No wishes are written down yet: what the household wants to eat, and how much a week.',
    scroll: 'Weeks, scrolls sideways',
  },
  site: {
    title: 'Site',
    lead: 'What a year is like here, and how much it differs from one year to the next. All pictures show the same day: point at one, or move its slider.',
    position: (lat: string, lon: string, height: string) => `${lat}, ${lon}, ${height} above the sea`,
    near: (station: string) => `near ${station}`,
    byFar: (at: string, station: string, distance: string) => `${at} (by ${station}, ${distance} away)`,
    compass: { north: 'N', south: 'S', east: 'E', west: 'W' },
    day: 'Day shown',
    dayColumn: 'Day',
    asTable: 'The numbers as a table',
    source: 'Where the weather comes from',
    fromRecord: (name: string, first: string, last: string, years: string) =>
      `The record ${name ? `“${name}”` : 'of this garden'}, ${first} to ${last}: ${years} of its years stand for what may come.`,
    madeMore: (years: string) => `The record is short, so ${years} more years were made to be like it.`,
    fromNormals: (years: string) =>
      `No record has been imported. ${years} years were made from monthly normals, so extremes are less sure, and this week cannot be compared.`,
    normalsAnd: (first: string, last: string, years: string) =>
      `The record (${first} to ${last}) is too short to stand for the years to come; ${years} years were made from monthly normals.`,
    normalsOf: (name: string, distance: string) =>
      `The normals are those of ${name}${distance && `, ${distance} from the garden`}.`,
    stationUnknown: 'No other place is given for it, so it is taken as the garden’s own weather.',
    stationNear: 'It was measured close by.',
    stationAt: (distance: string) => `It was measured ${distance} from the garden.`,
    stationFar: (distance: string) =>
      `The station is ${distance} away. Nights, frosts and rain in the garden may differ from what is shown; a thermometer at the bed for a few weeks tells by how much.`,
    stationHigher: (height: string) =>
      `The station lies ${height} higher than the garden, so the garden is likely warmer than shown.`,
    stationLower: (height: string) =>
      `The station lies ${height} lower than the garden, so the garden is likely colder than shown.`,
    ended: (day: string) => `The record ends on ${day}, so this week cannot be compared with other years.`,
    air: 'Warm and cold',
    airCaption:
      'Band: eight years in ten. Line: the middle year. Upright strokes: days of this year, from their coldest to their warmest.',
    airCaptionPlain: 'Band: eight years in ten. Line: the middle year.',
    nights: 'coldest of the night',
    daysWarm: 'warmest of the day',
    airWords: (day: string, night: string, nightRange: string, warm: string, warmRange: string) =>
      `${day}: nights ${night} (${nightRange}), days ${warm} (${warmRange})`,
    range: (low: string, high: string) => `${low} to ${high}`,
    night: 'Night',
    nightSpan: 'Night, 8 in 10',
    warm: 'Day',
    warmSpan: 'Day, 8 in 10',
    lastDays: (from: string, to: string) => `The last week on record, ${from} to ${to}`,
    nightsWere: (value: string, share: string) => `Nights ${value}: warmer than in ${share} of the years`,
    daysWere: (value: string, share: string) => `Days ${value}: warmer than in ${share} of the years`,
    risk: 'Frost and heat',
    riskCaption:
      'Height and shade of a bar: the share of years in which it happens in that week. Frame below: where the last and the first frost fall in eight years of ten, with the middle marked.',
    nightAt: (limit: string) => `A night of ${limit} or colder`,
    dayAt: (limit: string) => `A day of ${limit} or hotter`,
    notSeen: 'in none of the years',
    frostDates: 'When the last and the first frost come',
    freezeLast: 'last in spring',
    freezeFirst: 'first in autumn',
    limit: 'Frost of',
    early: 'Early (1 in 10)',
    middle: 'Middle',
    late: 'Late (9 in 10)',
    never: 'never',
    always: 'even in midsummer',
    winters: (share: string, count: string) => `in ${share} of ${count} winters`,
    wintersMade: (share: string, count: string) =>
      `in ${share} of ${count} winters made up from the monthly normals, for these dates alone`,
    neverWhy: 'Never: so many winters pass without such a frost that this date does not come.',
    screen: 'Measured in a screen at head height. A leaf under a clear sky is a few degrees colder.',
    hotDays: (limit: string, low: string, middle: string, high: string) =>
      `Days of ${limit} or hotter in a year: ${middle}, between ${low} and ${high}.`,
    riskWords: (frost: string, last: string, first: string) =>
      `${frost}: last in spring ${last}, first in autumn ${first} in the middle year.`,
    noFrostWords: (frost: string) => `${frost}: not in the middle year.`,
    week: 'Week of',
    sun: 'Day length and sun',
    dayLength: 'Day length',
    dayLengthWords: (day: string, hours: string) => `${day}: ${hours} from sunrise to sunset`,
    sunshine: 'Sun on the ground in a day',
    cloudless: 'cloudless sky',
    sunUsual: 'with the usual clouds',
    sunWords: (day: string, middle: string, range: string) => `${day}: ${middle} (${range})`,
    sunCaption: 'Band: means of a week in eight years of ten. Dashed: if no cloud came.',
    span: '8 in 10',
    soil: 'Soil and sowing',
    crop: 'Crop',
    depth: 'Depth',
    atDepth: (depth: string) => `${depth} deep`,
    soilName: (depth: string) => `Soil, ${depth} deep`,
    soilUsual: 'soil, mean of a week',
    coldest: (temp: string) => `sown from ${temp}`,
    base: (temp: string) => `stands still below ${temp}`,
    halfMark: 'in half of years',
    nineMark: 'in 9 of 10',
    soilWords: (day: string, middle: string, range: string) => `${day}: ${middle} (${range})`,
    warmFrom: (crop: string, temp: string, depth: string, id: string) =>
      `${crop} is ${isPlanted(id) ? 'planted' : 'sown'} in soil of ${temp} or more. At ${depth} it is that warm`,
    inHalf: 'in half of the years',
    inNine: 'in nine years of ten',
    fromUntil: (from: string, until: string) => `${from} to ${until}`,
    allYear: 'all year',
    notAtAll: 'never',
    raised: 'This crop is raised in trays as a rule: indoors the room or the mat counts, not this soil.',
    /** Where a figure comes from that nobody published. */
    unpublished: {
      'from memory': 'from memory',
      'common practice': 'common practice',
      chosen: 'chosen',
    } as Record<string, string>,
    figuresFrom: (coldest: string, base: string) => `Coldest soil: ${coldest}. Germination: ${base}.`,
    soilCaption:
      'Solid line: the coldest soil growers sow in. Dotted line: below it germination stands still. Frame at the foot: warm enough in half of the years; filled: in nine of ten. Bare, watered loam in the open ground, worked out from the weather. A raised bed warms sooner; straw keeps it cold; film warms it. Warm soil alone is no date to sow: look at frost too.',
    allCrops: 'All crops, at this depth',
    coldestColumn: 'Sown from',
  },
  why: {
    ask: 'why?',
    title: 'Why this number',
    inputs: 'From',
    formula: 'How',
    uncertainty: 'How sure',
    source: 'Source',
    place: 'Place',
    close: 'Close',
    alone: 'The same, worked out by itself:',
    notWorked: 'The working comes from the garden server, which did not give it:',
    toSow: 'To sow',
    toBuy: 'To buy and set out',
    readyTitle: (stand: string, day: string) => `Ready to pick, ${stand}, ${day}`,
    weekTitle: (what: string, day: string) => `${what}, week of ${day}`,
    plantTitle: (stand: string, day: string) => `One plant, ${stand}, ${day}`,
    grown:
      'The stand is grown day by day through every weather year: temperature and light drive it, enough water and food are taken for granted, what was logged is taken as it was.',
    light: 'Plants of a clump and neighbouring clumps share the light; the taller take more than their part.',
    thermal: 'Warmth above the crop’s base temperature is added up, hour by hour, until it is enough.',
    grownEquation:
      'Growth of a day = min(light use × light caught × f(warmth), (e^(r·θ) − 1) × leaf); light caught = 1 − e^(−k × leaf area); θ is the day’s warmth above base.',
    thermalEquation:
      'θ = Σ max(0, T − base) ÷ 24 over the hours; half are up when θ = θ₅₀ · e^(0.2·z), z of the seed lot.',
    countedEquation: 'Share = years in which it is so ÷ all weather years.',
    tableEquation: 'Reaches = min(wanted, left over × what keeps a week + picked).',
    shortageEquation: 'Missing = mean over the years of max(0, wanted − reaches), summed over the weeks.',
    orderEquation: 'Order = weight of the work × (½ + ½ × days since the best day ÷ days until it costs).',
    readyCounted:
      'Counted: the years in which the harvested part is large enough on that day and not past it.',
    successCounted: 'Counted: the years that bring a harvest worth having.',
    limit: (what: string) => `What most often spoils the others: ${what}.`,
    lots: 'Seed lots differ in their speed, by about a fifth: five of them, slow to fast, are reckoned in every year.',
    middleDay: 'Shown is the middle year: half of the years are earlier, half later.',
    middlePlant: 'Shown is the middle of all plants over all years.',
    weekSummed: 'What is ready or picked in that week, summed over the stand; shown is the middle year.',
    readySure:
      'The share of years is the uncertainty of the weather ahead. The model’s own error comes on top: see the source.',
    shareSure: 'A share of weather years. The model’s own error comes on top: see the source.',
    between: (range: string) => `Eight years in ten: ${range}.`,
    overYears: (n: string) => `Counted over ${n} weather years of this place.`,
    thatIs: (years: string, all: string) => `That is ${years} of ${all} weather years.`,
    standSource:
      'Growth by the light caught, after LINTUL (Shibu and others 2010, European Journal of Agronomy 32:255–271; Spitters 1990, Acta Horticulturae 267:349–368). Equations, figures and the trials they were held against: “The stand: growth, size and competition” in the manual (docs/models/stand.md).',
    emergenceSource:
      'Warmth to emergence after Harrington and Minges 1954, and for some crops Bierhuizen and Wagenvoort 1974. Equations, figures and the published days they were held against: “From seed to seedling” in the manual (docs/models/emergence.md).',
    tableWalked:
      'In every weather year what becomes ready is added to what is left of the weeks before, which keeps where a household would let it lie.',
    tableShared: 'Then every wish takes its share, the most important first, each from what spoils soonest.',
    tableSource:
      'The stands of this garden in its weather years; storage lives of the crop library; “The plan” in the manual (docs/models/plan.md).',
    cost: 'This plan’s cost (what is missing and wasted, work, changes)',
    bound: 'No plan can cost less than',
    gap: (cost: string, bound: string, gap: string) => `(${cost} − ${bound}) ÷ ${cost} = ${gap}`,
    gapSure: 'Proven for the weather years in the plan; other years may turn out dearer or cheaper.',
    planSource:
      'The model with every symbol: “The plan” in the manual (docs/models/plan.md). Its prices are choices of this project.',
    wish: (supplied: string, wanted: string, share: string) => `${supplied} ÷ ${wanted} = ${share}`,
    wishSure: 'A mean over the weather years in the plan: half of them bring less.',
    shortage:
      'For each week, the mean of what is missing over the weather years in the plan; then their sum.',
    shortWeek: (missing: string, share: string) => `${missing}, in ${share} of years`,
    bestDay: 'Best day',
    costsAfter: 'Costs after',
    taskOrder: 'Work is ordered by what leaving it undone would cost, and how soon.',
    taskSource:
      'The outlook of the stand (“The stand: growth, size and competition” in the manual, docs/models/stand.md) and the logbook.',
    taskSure: 'As sure as the day from which it costs; see the reason.',
    record: 'Weather from',
    away: 'Away by',
    yearsName: 'Weather years',
    climateSource:
      'FAO Irrigation and Drainage Paper 56 (Allen, Pereira, Raes and Smith 1998) and others. Methods and the published examples they reproduce: “Sun, evapotranspiration, hours of the day, soil temperature” in the manual (docs/models/climate.md).',
    quantile: 'The values of that day in all years, put in order; shown is the middle one.',
    counted: 'Counted: the years in which it happens.',
  },
  store: {
    title: 'Store',
    lead: 'What was put by and is still there. What spoils first stands first.',
    none: 'Nothing is in store. Put in what is picked and not eaten at once, and it is told here how long it keeps.',
    first: 'Eat first',
    sums: 'All in store',
    crop: 'Crop',
    lots: 'Lots',
    weight: 'Weight',
    place: 'Lies in',
    stored: 'Stored',
    places,
    put: 'Put into store',
    putWhat: 'From',
    putButton: 'Log: stored',
    moreThanPicked: (left: string) => `By the log only ${left} of it were picked and not stored yet.`,
    nothingPicked: 'By the log nothing of it was picked that is not stored yet: log the picking too.',
    nothingGrows: 'Nothing stands in the beds that could be stored.',
    daysLeft: (days: number, day: string) => `${days} more ${days === 1 ? 'day' : 'days'}, until ${day}`,
    lastDay: 'best eaten today',
    pastBy: (days: number) => `${days} ${days === 1 ? 'day' : 'days'} past its day: look and smell first`,
    eatBy: (day: string) => `eat by ${day}`,
    storedOn: (day: string) => `Stored ${day}`,
    good: (share: string) => `about ${share} of it still good`,
    ate: 'Eaten',
    threwAway: 'Thrown away',
    caution:
      'These days are about quality, for whole, fresh, sound produce. What is cut, cooked, jarred or dried follows tested official instructions only. When it smells or looks wrong, throw it away.',
    whyTitle: (crop: string, place: string) => `How long ${crop} keeps: ${place}`,
    whyLife: (days: string, low: string, high: string) =>
      low && high
        ? `There it keeps ${daysOf(days)}; published values run from ${low} to ${high}.`
        : `There it keeps ${daysOf(days)}.`,
    whyChilled: (degrees: string) => `It is injured by cold below ${degrees}.`,
    whyGood: (age: string, days: string, share: string) =>
      `Half of a lot is still good at the end of its life: 2^(−${age} / ${days}) = ${share}.`,
    whyFormula: 'The day it was stored, and the storage life of the crop in that place added to it.',
    whyUncertain: (share: string) =>
      `A storage life is when about half of a lot is still good; published lives differ as shown. By that rule ${share} of this lot is good today.`,
  },
  packets: {
    title: 'Seed',
    lead: 'The packets at hand, what the plan needs from them, when it can be sown here, and how full the trays will be.',
    shortTitle: 'Short for the plan',
    noNeeds: 'The plan needs no seed from today on.',
    noneShort: 'There is seed enough for all that is planned.',
    missing: (n: string, pieces: boolean) => `${seedsOf(n, pieces)} missing`,
    seeds: seedsOf,
    firstSown: (day: string) => `first sown ${day}`,
    buy: (n: string, weight: string) => `buy ${n} fresh ${n === '1' ? 'seed' : 'seeds'} (${weight})`,
    /** Tubers and cloves; by crop where they have a name of their own. */
    buyPieces: (n: string, weight: string, crop: string) => `buy ${piecesOf(n, crop)} to plant (${weight})`,
    enough: (names: string) => `Enough at hand for: ${names}.`,
    packetsTitle: 'Packets',
    none: 'No packets are written down yet. Write them down below, and their age and germination are told here.',
    packed: 'Packed in',
    stated: 'Said on the packet',
    notStated: 'not given; a good fresh packet is taken',
    lies: 'Lies at',
    test: (day: string) => `Home test ${day}`,
    cameUp: (up: string, sown: string) => `${up} of ${sown} came up`,
    comesUp: (share: string) => `${share} should come up`,
    whyTitle: (name: string) => `Germination now, ${name}`,
    whyRange: (low: string, high: string) => `8 times in 10 between ${low} and ${high}`,
    verdicts: {
      good: 'Good to sow',
      'sow-thicker': 'Sow thicker',
      'test-first': 'Test first',
      renew: 'Buy new seed',
    },
    left: (n: string, pieces: boolean) => `${seedsOf(n, pieces)} left`,
    planned: (n: string) => `${n} of them planned`,
    nextYear: (year: string, share: string) => `In ${year} about ${share} would come up.`,
    whyNeedTitle: (name: string) => `Seed missing, ${name}`,
    whyNeed: (needed: string, covered: string, missing: string) =>
      `${needed} needed − ${covered} at hand = ${missing} missing`,
    whyNeedSource:
      'The plan’s stands, the packets and the logbook; counts after “From seed to seedling” in the manual (docs/models/emergence.md).',
    whyNeedUncertain: (share: string) => `Enough to come up to the planned clumps in ${share} of cases.`,
    windowsTitle: 'When to sow here',
    windowsLead:
      'Days on which sowing, or setting out, gives a harvest worth having. The words at the ends say what closes the window; the number is the share of years in which it works out.',
    windowsComing: 'The windows of this place are being worked out …',
    choose: 'Crops shown',
    choices: { wanted: 'Wanted here', open: 'Can be sown now', all: 'All crops' },
    noWindows: 'No crop shown here has a window.',
    methods: { 'direct-sow': 'sown in place', 'start-indoors': 'sown in trays', 'set-out': 'set out' },
    success: 'Works out in',
    before: 'Earlier fails by',
    tooSlow: 'too slow a growth',
    after: 'Later fails by',
    whyWindow:
      'Every day of the year is tried as a sowing day in every weather year: does it come up in time, live through the frosts, ripen before growth or the season ends, and stay clear of heat and bolting? The window holds the days on which at least half of the years succeed.',
    whyWindowSource:
      'Held against 510 windows of published planting calendars: “Sowing windows” in the manual (docs/models/windows.md).',
    whyWindowUncertain:
      'The share of years in the weather of this place. Published calendars of one place differ by weeks among themselves.',
    nurseryTitle: 'The trays, week by week',
    noTrays: 'This garden has no trays.',
    nurseryName: (name: string, cells: string, most: string, week: string) =>
      `${name}: ${cellsOf(cells)}; at most ${most} in use, in the week of ${week}`,
    busiest: (most: string, week: string) => `at most ${most} in use, week of ${week}`,
    nurseryCaption:
      'Bars: cells in use. Dotted above them: when the slowest tenth of years has not let them out yet. Dashed line: the cells there are.',
    byWeek: 'What to do in the nursery',
    laterWeeks: (n: string) => `${n} more ${n === '1' ? 'week' : 'weeks'} later in the year`,
    over: (tray: string) => `${tray} is over-full`,
    tasks: {
      sow: 'Sow',
      look: 'Look',
      'pot-on': 'Pot on',
      'harden-off': 'Harden off',
      'set-out': 'Set out',
    },
  },
  judge: {
    title: 'Pull or wait',
    options: 'What waiting brings',
    now: 'today',
    inWeeks: (n: number) => (n === 1 ? 'in a week' : `in ${n} weeks`),
    pulled: 'Picked',
    plant: 'A plant on average',
    usable: 'Usable in all',
    gain: 'Gain, mean',
    large: 'Large',
    loss: 'Risk of loss',
    worth: 'Worth',
    groundWorthMore: 'less than its ground is to what comes next',
    ground: 'Lost by what waits for the place',
    kitchen: 'Kitchen lacks this week',
    best: '◂ best',
    order: 'In a clump, from the heaviest:',
    firstOut: '(this one first)',
    largest: (now: string, rest: string) =>
      `Pulling the largest of each clump gives ${now} now, and ${rest} more from the rest in two weeks.`,
    net: (usable: string, ground: string, net: string) =>
      `${usable} usable − ${ground} lost by what waits for the place, less the risk = ${net}`,
    gainRange: (low: string, high: string) => `The gain of waiting lies between ${low} and ${high}.`,
    advices: {
      pick: 'Pick now',
      wait: 'Wait',
      pull: 'Pull now',
      'pull the largest': 'Pull the largest, leave the rest',
      cut: 'Cut now',
      look: 'Look: likely dead',
      clear: 'Clear it',
      over: 'Over',
      'nothing to judge yet': 'Nothing to judge yet',
    } as Record<string, string>,
  },
  observe: {
    title: 'Tell what you see',
    lead: 'The outlook of this stand then starts from what is there.',
    ways: { eye: 'By eye', felt: 'Felt', weighed: 'Weighed' },
    eyeLead: 'Most plants are',
    about: (grams: string) => `about ${grams}`,
    felt: 'One across',
    plantsUnit: (n: number): string => (n === 1 ? 'plant' : 'plants'),
    howMany: 'How many were weighed',
    together: 'What they weigh together',
    each: (grams: string) => `That is ${grams} a plant.`,
    log: 'Log: measured',
  },
  study: {
    title: 'The clumps, to scale',
    name: (n: string, setting: string) => `${clumpsOf(n)} from above, ${setting}.`,
    words: (day: string, middle: string, low: string, high: string, standing: string) =>
      `${day}: ${middle} a plant on average; 8 single plants in 10 between ${low} and ${high}; ${standing} standing`,
    none: (day: string) => `${day}: nothing stands`,
    standing: (day: string, standing: string) => `${day}: ${standing} standing`,
    before: (day: string, standing: string, part: string) => `${day}: ${standing} standing, ${part} yet`,
    noPart: {
      root: 'no root to speak of',
      leaf: 'no leaf to pick',
      head: 'no head',
      stem: 'no stem to cut',
      bulb: 'no bulb',
      pod: 'no pods',
      fruit: 'no fruit',
      tuber: 'no tubers',
      herb: 'no leaf to pick',
      flower: 'no head',
    },
    caption: (n: string, all: string, setting: string) =>
      `${n !== all ? `${n} of the ${clumpsOf(all)}` : n === '1' ? 'The one clump' : `All ${clumpsOf(all)}`}, ${setting}; a solid frame lies at the edge of the bed.`,
    drawn: 'Each plant as wide as it should be; the stronger the shade, the heavier.',
    drawnPicked:
      'The wider and the stronger the shade, the more fruit a plant has made by then, picked or not.',
    sizes: { too_small: 'too small', small: 'small', large: 'large', over_size: 'over-size' },
    tryOut: 'Try on the picture first',
    choices: {
      none: 'Leave all',
      thin: 'Thin to one a clump',
      largest: 'Take the largest of each clump',
      large: 'Take all that are large',
      leaves: 'Take a third of the leaves',
    },
    taken: (n: string, grams: string, low: string, high: string) =>
      `That takes ${plantsOf(n)} today, ${grams} (8 years in 10: ${low} to ${high}).`,
    takenLeaves: (grams: string, low: string, high: string) =>
      `That takes ${grams} of leaves today (8 years in 10: ${low} to ${high}).`,
    logLeaves: (grams: string) => `Done: log ${grams} of leaves picked`,
    takenOut: (n: string) => `That takes ${plantsOf(n)} out today.`,
    rest: (day: string, gain: string) => `What stays weighs ${gain} by ${day} for it.`,
    working: 'Working it out …',
    log: (n: string) => `Done: log ${n} taken out`,
  },
  setup: {
    title: 'The garden',
    lead: 'Five things, and there is a first plan: where it is, the beds, the trays, what you want to eat, and then planning. All of it can be changed later.',
    start: 'Set it up',
    saved: 'Saved.',
    notSaved: 'Not saved:',
    done: 'done',
    placeUntold: 'The garden’s place is not told yet.',
    gardenName: 'Name of the garden',
    gardenUnits: 'Units of the garden, at the command line too',
    place: 'Where it is',
    placeIs: (name: string, lat: string, lon: string) => `${name} (${lat}, ${lon})`,
    find: 'Town or weather station',
    noPlace: 'No built-in place has that name. Give its position: the nearest one lends its climate.',
    byPosition: 'Or by its position',
    latitude: 'Degrees north (south: minus)',
    longitude: 'Degrees east (west: minus)',
    height: { metric: 'Metres above the sea', us: 'Feet above the sea' },
    use: 'Use this position',
    useAllTheSame: 'Use this position and take that climate all the same',
    nearestIs: (station: string, distance: string) =>
      `The nearest built-in station is ${station}, ${distance} away.`,
    farClimate:
      'Over such a distance coasts and hills make other climates: a weather record of your own, or twelve monthly normals, is better.',
    otherClimate: 'That is another climate: take a weather record of your own, or twelve monthly normals.',
    ownRecord:
      'A record is read in at the command line: sowtide weather GARDEN add FILE. Normals are written into a garden’s description.',
    otherMark: 'with another climate',
    climateOf: (station: string, distance: string) => `Its climate is that of ${station}, ${distance} away.`,
    climateOfRecord: 'Its climate is that of the weather record in the garden file.',
    climate: (source: string) => `Source: ${source}`,
    beds: 'The beds',
    draw: {
      metric: 'Draw a bed: press and drag on the squares. One square is half a metre.',
      us: 'Draw a bed: press and drag on the squares. One square is two feet.',
    },
    drawing: (length: string, width: string) => `${length} × ${width}`,
    addBed: 'Add a bed',
    bedName: (n: number) => `Bed ${n}`,
    name: 'Name',
    length: 'Length',
    width: 'Width',
    sun: 'Sun',
    suns: { full: 'full sun', partial: 'part sun', shade: 'shade' },
    kind: 'Kind',
    kinds: { raised: 'raised bed', ground: 'open ground' },
    fed: 'Compost or manure dug in this year',
    past: 'What grew here before',
    pastLead:
      'A family is kept off the ground it stood on for some years. What is in the garden’s own log need not be written here.',
    pastNone: 'Nothing is written down.',
    pastFrom: 'From, along the bed',
    pastTo: 'To',
    family: 'Family',
    year: 'Year',
    addPast: 'Add what grew',
    pastName: (family: string, bed: string, year: string) => `${family}, ${bed}, ${year}`,
    poleEnd: { north: 'Which end lies north', south: 'Which end lies south' },
    poleEnds: { neither: 'neither: east to west', start: 'its start (0)', end: 'its far end' },
    poleLead:
      'Where a bed runs towards the pole, tall crops go to that end and shade nothing. The start is where its length is counted from.',
    remove: 'Remove',
    trays: 'The trays',
    addTray: 'Add a tray',
    trayName: (n: number) => `Tray ${n}`,
    cells: 'Cells',
    cellWidth: 'A cell is wide',
    matCells: 'Cells on the mat at once',
    allCells: 'all',
    offMat: 'Off the mat, once up',
    staysOnMat: 'as warm as on it',
    warmth: 'Warmth of the soil',
    trayPlace: 'Stands',
    trayPlaces: {
      indoors: 'indoors',
      heat_mat: 'on a heat mat',
      cold_frame: 'in a cold frame',
      outdoors: 'outdoors',
    },
    noTrays: 'Without trays all is sown in place, or comes as bought plants where a wish says so.',
    wants: 'What you want to eat',
    wantsLead: 'Choose what the household likes; set how much a week, and for which months.',
    more: 'More',
    variety: 'Variety',
    anyVariety: 'any',
    size: 'Size',
    sizes: { large: 'full size', small: 'small and tender' },
    priority: 'When there is not enough for all',
    priorities: {
      little: 'comes last',
      usual: 'as the others',
      much: 'comes before the others',
      most: 'comes first',
    },
    priorityValue: (n: string) => `counts ${n} times`,
    early: 'As early as can be had',
    bought: 'The plants are bought',
    boughtLead:
      'Where the crop bears to be set out: the plan then says how many to buy and when, and asks for no seed and no tray. Ten plants count as dear as a packet of seed.',
    kept: 'To lie in store at the end',
    coolStore: 'We have a cellar, a clamp or a cool loft to store in',
    coolStoreLead:
      'With it the plan lets roots, cabbages and the like lie there for as long as they keep at their best; without, only in the kitchen or the refrigerator.',
    people: 'People',
    eaten: (grams: string) => `people eat ${grams} a week each, on average`,
    scale: (from: string, to: string) =>
      `Change the amounts from ${from} to ${to} ${to === '1' ? 'person' : 'people'}`,
    propose: (n: string, people: string) =>
      `Add the ${n === '1' ? 'vegetable' : `${n} vegetables`} eaten most, for ${people}`,
    eatenSource: (source: string) =>
      `Averages of the whole United States, bought fresh, before kitchen waste (${source}). A place to start: change what your table likes.`,
    perWeek: 'a week',
    addWant: 'Add',
    crop: 'Crop',
    oneCrop: 'One crop',
    oneOfMany: 'Any of a kind',
    plan: 'The first plan',
    needs: 'Before a plan can be made:',
    missing: { place: 'where the garden is', beds: 'at least one bed', wants: 'at least one wish' },
    toSeason: 'See it on the season sheet',
    edit: 'Change the garden',
    from: 'From',
    until: 'Until end of',
    save: 'Save',
    seed: 'The seed at hand',
    seedLead: 'Packets and varieties are written down on the Seed page.',
  },
  seedBox: {
    title: 'Write down packets and varieties',
    packets: 'Packets',
    lead: 'What is written down here is what the plan may sow before it asks you to buy.',
    addPacket: 'Add a packet',
    packet: (name: string, year: string) => `${name}, packed ${year}`,
    year: 'Packed in',
    seeds: 'Seeds in it',
    stated: 'Printed or tested germination is known',
    germination: 'Germination',
    varieties: 'Varieties',
    noVarieties: 'No variety is written down: seed, wishes and stands are told by their crop alone.',
    varietyName: 'Name',
    newVariety: 'Name of the new variety',
    colour: 'Colour',
    notes: 'Notes',
    addVariety: 'Add a variety',
    none: 'none named',
  },
  pair: {
    title: 'Pair this device',
    lead: 'This garden is served on the home network to paired devices only. The machine that serves shows a code; type it here once.',
    code: 'Code',
    name: 'What to call this device',
    device: 'A phone',
    button: 'Pair',
    keep: 'Once paired, put the page on the home screen as a bookmark (in the menu of the browser: “Add to Home screen”). Browsers install no app from an unencrypted home network, so it opens only while the machine that serves is in reach; what is logged on an open page is kept until then.',
    install:
      'Once paired, install the page from the menu of the browser (“Install” or “Add to Home screen”). It then opens without the machine that serves too, shows what it showed last, and keeps what is logged until the machine is in reach.',
  },
  /** What went wrong, by the codes of the program; `offline` is the page's own. */
  problems: {
    codes: {
      'file-missing': 'A file is missing on the garden server.',
      'file-unreadable': 'A file could not be read or written on the garden server.',
      empty: 'There is nothing in it.',
      syntax: 'It does not follow its format.',
      'unknown-field': 'Nothing here reads this entry.',
      'missing-field': 'An entry is missing.',
      'wrong-type': 'This takes another kind of value.',
      'wrong-unit': 'The unit is unknown or does not fit.',
      'out-of-range': 'The value lies outside what can be.',
      contradiction: 'This contradicts what is already known.',
      ambiguous: 'This can be read in two ways.',
      'not-found': 'This does not exist here.',
      'already-exists': 'This is there already.',
      'too-large': 'This is larger than the limit.',
      'insufficient-data': 'There is too little to work it out from.',
      'wrong-version': 'This was written by a newer program, or is not of Sowtide.',
      storage: 'The garden file could not be read or written.',
      infeasible: 'Nothing can meet all that is asked.',
      cancelled: 'It was stopped.',
      usage: 'The garden server does not take this.',
      internal: 'Something went wrong inside the program.',
      offline: 'The garden server was not reached.',
      'changed-elsewhere':
        'It was changed elsewhere meanwhile. Here it is as it is now; make your change once more.',
    } as Record<string, string>,
    /** Names of the fields that the page sends. */
    fields: {
      code: 'Code',
      name: 'Name',
      latitude_deg: 'Degrees north',
      longitude_deg: 'Degrees east',
      elevation_m: 'Height',
      length_m: 'Length',
      width_m: 'Width',
      cells: 'Cells',
      place: 'Place',
      crop: 'Crop',
      variety: 'Variety',
      stand: 'Stand',
      date: 'Day',
      count: 'Number',
      grams: 'Weight',
      litres: 'Water',
      diameter_mm: 'Diameter',
      target: 'Lot',
      from_m: 'Place in the bed',
      to_m: 'End in the bed',
      clumps: 'How many',
      day: 'Day',
      spacing_mm: 'Spacing',
      plants_per_clump: 'Plants in a clump',
      bought: 'Bought',
      family: 'Family',
      year: 'Year',
      sow: 'Sowing day',
      bed: 'Bed',
      tray: 'Tray',
      people: 'People',
      amount_per_week: 'Amount a week',
      from: 'From',
      to: 'Until',
      weather: 'Weather',
      paper: 'Paper',
    } as Record<string, string>,
    about: (field: string, what: string) => `${field}: ${what}`,
    /** The program's own sentences; what stands in none of them is told in English (domain/sentences.ts). */
    sentences: {} as Record<string, string>,
  },
  limits,
  /** Cautions of the crop library, by its own English; what is not here is told in that. */
  cautions: {} as Record<string, string>,
  /** How to handle what is picked, by crop; temperatures in braces, in °C, are said in the person's unit. */
  handling: {
    arugula: 'Cool at once, keep unwashed in a bag in the refrigerator.',
    basil: 'Stand in water at room temperature, not in the refrigerator.',
    beet: 'Twist the tops off, leave unwashed, keep in a perforated bag near {2}.',
    'broad-bean': 'Pick young, cool at once, shell just before use.',
    broccoli: 'Cut while buds are tight, cool at once.',
    'brussels-sprouts': 'Pick from below; keep in a bag in the refrigerator.',
    'bush-bean': 'Pick every few days, keep in a bag in the warmest part of the refrigerator.',
    cabbage: 'Cut with a few outer leaves, keep cold and damp.',
    carrot:
      'Cut the tops off, leave unwashed, keep in a bag or in damp sand, away from apples (ethylene makes them bitter).',
    cauliflower: 'Cut with a ring of leaves, keep cold and covered.',
    celeriac: 'Cut leaves and fine roots off, keep cold and damp.',
    celery: 'Cut whole, keep in a bag in the refrigerator.',
    chard: 'Cool at once, keep unwashed in a bag in the refrigerator.',
    cilantro: 'Stand in water or keep in a bag in the refrigerator.',
    collards: 'Cool at once, keep unwashed in a bag in the refrigerator.',
    courgette: 'Pick every two or three days, do not bruise, keep in the warmest part of the refrigerator.',
    cucumber: 'Keep wrapped in a cool room, or a few days in the warmest part of the refrigerator.',
    dill: 'Keep in a bag in the refrigerator.',
    eggplant: 'Keep in a cool room or the warmest part of the refrigerator.',
    endive: 'Cool at once, keep unwashed in a bag in the refrigerator.',
    fennel: 'Cut the leaves short, keep in a bag in the refrigerator.',
    garlic:
      'Cure two to four weeks in dry moving air, keep dry. Never keep garlic in oil at room temperature (botulism).',
    'hot-pepper': 'Keep dry in a bag in the warmest part of the refrigerator.',
    kale: 'Cool at once, keep unwashed in a bag in the refrigerator.',
    kohlrabi: 'Take the leaves off, keep in a bag in the refrigerator.',
    leek: 'Trim roots and leaf tips, keep in a bag; or leave in the ground.',
    lettuce: 'Cut in the cool of the morning, cool at once, keep in a bag in the refrigerator.',
    melon: 'Pick when it slips from the stalk; wash the rind before cutting, keep cut fruit cold.',
    'mustard-greens': 'Cool at once, keep unwashed in a bag in the refrigerator.',
    okra: 'Pick every other day; keep dry in the warmest part of the refrigerator.',
    onion: 'Cure two to four weeks in warm moving air till necks are dry, keep cold and dry with air around.',
    'pak-choi': 'Cool at once, keep unwashed in a bag in the refrigerator.',
    parsley: 'Stand in water or keep in a bag in the refrigerator.',
    parsnip: 'Leave in the ground and dig as wanted; sweeter after frost.',
    pea: 'Pick young, cool at once, shell just before use.',
    'pole-bean': 'Pick every few days, keep in a bag in the warmest part of the refrigerator.',
    potato: 'Cure two weeks in the dark at {13|16}, keep dark, cool and airy.',
    radish: 'Cut the tops off at once, keep in a bag in the refrigerator.',
    rutabaga: 'Cut the tops off, keep cold and damp.',
    scallion: 'Trim, keep in a bag in the refrigerator.',
    spinach: 'Cool at once, keep dry in a bag in the refrigerator.',
    'sweet-corn': 'Cool at once and eat soon: it loses sugar by the hour.',
    'sweet-pepper': 'Keep dry in a bag in the warmest part of the refrigerator.',
    'sweet-potato': 'Cure a week at {27|30} and damp, keep at {13|16}, never in the refrigerator.',
    tomato: 'Keep at room temperature, stem down; not in the refrigerator until ripe.',
    turnip: 'Cut the tops off, leave unwashed, keep in a bag or damp sand.',
    'winter-squash': 'Cut with a stalk, cure ten days in the warm (not acorn), keep dry at {10|13}.',
  } as Record<string, string>,
  crops: {} as Record<string, string>,
  groups,
  /** A wish that any crop of a group meets. */
  anyOf: (group: string) => `any ${groups[group] ?? group}`,
  /** Families of the crops, by what people know of each. */
  families: {
    Amaranthaceae: 'Beet, chard, spinach',
    Amaryllidaceae: 'Onion, leek, garlic',
    Apiaceae: 'Carrot, celery, parsley',
    Asteraceae: 'Lettuce, endive',
    Brassicaceae: 'Cabbages, radish, turnip',
    Convolvulaceae: 'Sweet potato',
    Cucurbitaceae: 'Cucumber, squash, melon',
    Fabaceae: 'Peas and beans',
    Lamiaceae: 'Basil',
    Malvaceae: 'Okra',
    Poaceae: 'Sweet corn',
    Solanaceae: 'Potato, tomato, pepper',
  } as Record<string, string>,
};

export type Texts = typeof en;
export const texts = en;

/** Every word on paper, by section; {names} stay. `npm run paper-texts` carries it to the program, with the names of crops. */
export const paper = {
  language: {
    name: 'English',
  },
  number: {
    decimal: '.',
    under: 'under {amount}',
  },
  date: {
    months: 'Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec',
    full_months: 'January February March April May June July August September October November December',
    day: '{day} {month}',
    day_us: '{month} {day}',
    long: '{day} {month} {year}',
    long_us: '{month} {day}, {year}',
    within_month: '{from}–{to} {month}',
    within_month_us: '{month} {from}–{to}',
    range: '{from} – {to}',
  },
  place: {
    stretch: '{from} – {to}',
    in_bed: '{bed}, {stretch}',
    in_place: 'sown in place',
    bought: 'bought as plants',
    tray: 'tray',
    one_cell: '1 cell',
    cells: '{n} cells',
    overfull: 'overfull',
    full_sun: 'full sun',
    partial_sun: 'partial sun',
    shade: 'shade',
  },
  page: {
    number: '{page} of {total}',
    weather: 'Weather: {source}',
    normals: 'made from monthly normals',
    normals_of: 'made from monthly normals ({source})',
    one_year: '1 year of {place}, {from}',
    record: '{n} years of {place}, {from} to {to}',
    made: ', and {n} made by a generator fitted to them',
    warmer: ', {degrees} warmer by choice',
    colder: ', {degrees} colder by choice',
    record_unused: '; the record has too few whole years',
    as_of: 'as of {day}',
  },
  title: {
    labels: 'Labels',
    'sowing-sheet': 'Sowing sheet',
    'bed-sheets': 'Bed sheet',
    season: 'The season',
    table: 'What reaches the table',
    handout: 'When to sow',
  },
  empty: {
    no_stands: 'Nothing is planned or sown yet. `sowtide plan GARDEN` makes a plan.',
    no_beds:
      "This garden has no beds yet. Describe them in the garden file's TOML ([[beds]]: name, length, width), then plan.",
    no_wants:
      "This garden has no wants yet. Say in the garden file's TOML what the table should see ([[wants]]: a crop, an amount a week, from when to when).",
  },
  legend: {
    ready: 'chance of being ready to pick: the deeper, the surer',
    fade: 'fading: may be gone by then',
    planned: 'dashed rim: planned',
    sown: 'full rim: sown',
    notches: 'first pick in 1, 5 and 9 years of 10',
    free: 'dots: free room',
  },
  label: {
    sow: 'to sow {day}',
    sown: 'sown {day}',
    up: 'up {days}; late from {late}',
    set_out: 'set out {days}',
    buy: 'buy and set out {days}',
    first_pick: 'first pick {days}',
    last_pick: 'last pick {days}',
    none: 'There is nothing to label: no stand is planned or growing.',
  },
  sowing: {
    lead: 'What to sow from {from} to {to}. Up: 8 years of 10 have half of it up in these days. Late: nothing to be seen by then means sow again.',
    week: 'Week of {day}',
    day: 'best day',
    what: 'what',
    amount: 'how many',
    where: 'where',
    depth: 'depth',
    warmth: 'warmth',
    up: 'half of it up',
    late: 'late from',
    sown_on: 'sown on',
    seen_on: 'seen on',
    counted: 'counted',
    one_piece: '1 piece',
    one_seed: '1 seed',
    seeds: '{n} seeds',
    one_cell: '1 cell, {seeds}',
    cells: '{n} cells, {seeds} each',
    one_place: '1 place, {seeds}',
    places: '{n} places {spacing} apart, {seeds} each',
    soil_from: 'soil ≥ {temperature}',
    overdue: 'overdue',
    never_up: 'not expected up',
    none_in_a_week: 'Nothing is to be sown in the coming week.',
    none: 'Nothing is to be sown in the coming {weeks} weeks.',
    next: 'The next sowing is on {day}.',
    missed:
      'Sowings missed by more than three weeks and left out here: {n}. Planning again finds what still makes sense.',
  },
  caution: {
    heat_mat: "Electric heat near water: follow the maker's instructions and use a residual-current device.",
    of_crop: '{crop}: {text}',
  },
  season: {
    title: 'The season',
    lead: 'Time runs across, the length of each bed runs down. The deeper the shade of a patch, the surer it is ready to pick on that day.',
  },
  list: {
    title: 'All stands',
    lead: 'All stands by bed and day. Ranges hold 8 years of 10; worth: share of the years with a harvest worth having.',
    stand: 'stand',
    what: 'what',
    where: 'where',
    plants: 'plants',
    raised: 'raised',
    sow: 'sow',
    set_out: 'set out',
    first_pick: 'first pick',
    last_pick: 'last pick',
    worth: 'worth',
    plants_at: '{n}, {spacing} apart',
    one_cell_in: '1 cell, {tray}',
    cells_in: '{n} cells, {tray}',
    sown_on: 'sown {day}',
  },
  bed: {
    lead: '{bed}: {length} long, {width} wide, {sun}.',
    past: 'In {year}: {family} at {stretch}.',
    stretch: 'stretch',
    notes: 'notes',
    drawn: '{n} of them drawn',
    from_above: 'From above on {day}, 1 : {scale}',
    through: 'Its length through the season',
    done: 'done {day}',
    empty: 'Nothing is planned or growing in this bed.',
  },
  table: {
    lead: 'Week by week from {from} to {to}: what is wanted and what of it reaches the table, fresh or out of store.',
    any: 'any {group}',
    one_serving: '1 serving',
    servings: '{n} servings',
    one_piece: '1 piece',
    pieces: '{n} pieces',
    weekly: '{amount} a week, {from} – {to}',
    total: '{amount} in store on {day}',
    sum: '{reaches} of {wanted}: {share}',
    legend_wanted: 'wanted',
    legend_reaches: 'reaches the table in the middling year',
    legend_range: '8 years of 10',
    legend_share: "share of the month's wish that is met",
  },
  handout: {
    lead: 'Days on which sowing or setting out gives a harvest worth having in at least half of the years, in {place}.',
    weather: 'mean low and high of the months',
    never: 'no window in half of the years',
    'start-indoors': 'sow indoors',
    'direct-sow': 'sow in place',
    'set-out': 'set young plants out',
    freeze: 'last and first frost: half of the years; 1 year of 10',
    explain:
      'The deeper the shade, the more of the years succeed: 50 % at its palest, all of them at its deepest. Worked out from the weather of this place and figures of each crop; the next field may be colder or warmer, and varieties differ. Your extension office or gardening neighbours know better where they disagree. Sow a little early and a little late, write down what happened, and trust that more than any calendar.',
  },
  calendar: {
    name: '{garden}: garden work',
    sow: 'Sow {what}',
    up: 'Look for {what} coming up',
    harden_off: 'Harden off {what}',
    set_out: 'Set out {what}',
    buy: 'Buy and set out {what}',
    first_pick: 'First pick of {what}',
    last_pick: 'Last pick of {what}',
    days: '8 years of 10: {days}.',
    sow_text: '{amount}, {depth} deep, in {where}.',
    plant_text: '{amount}, in {where}.',
    up_text: 'Half of it should be up {days}. Nothing to be seen after {late}: sow again.',
    up_text_planted: 'Half of it should be up {days}. Nothing to be seen after {late}: plant again.',
    harden_one_day: 'Outside by day for a day.',
    harden_text: 'Outside by day for {n} days, longer each day.',
    set_out_text: '{plants} in {where}.',
    buy_text: 'Buy {plants}, in {where}.',
    worth: 'Worth having in {share} of the weather years.',
  },
  groups,
};

export type PaperTexts = typeof paper;
