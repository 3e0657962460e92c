// Alle Texte der Seite auf Deutsch.

import type { PaperTexts, Texts } from './en';

const places = {
  kitchen: 'in der Küche, bei Zimmerwärme',
  fridge: 'im Kühlschrank',
  best: 'am besten Platz dafür',
};

const stored: Record<string, string> = {
  kitchen: 'in der Küche bei Zimmertemperatur',
  fridge: 'im Kühlschrank',
  best: 'im kühlen Lager',
};
/** Wohin kommt, was vor dem Frost geerntet wird. */
const storedIn = (place: string | undefined) => stored[place ?? ''] ?? '';

/** Michigan State University Extension, Preserving Food Safely 01600049 (1997). */
const blanching = (crop: string | undefined) =>
  `${crop === 'collards' ? '3' : '2'} Minuten blanchiert: Michigan State University Extension`;

/** What ends a stand, or keeps it from coming to anything. */
const limits: Record<string, string> = {
  'soil too cold': 'kalter Boden',
  'soil too hot': 'heißer Boden',
  'no safe day to set out': 'kein sicherer Tag zum Auspflanzen',
  'outgrows its tray before it can go out': 'zu enge Zellen',
  frost: 'Frost',
  heat: 'Hitze',
  bolting: 'Schossen',
  'season too short': 'eine zu kurze Saison',
  'day length': 'die Tageslänge',
  age: 'das Alter',
};

const daysOf = (n: string | undefined) => (n === '1' ? '1 Tag' : `${n} Tage`);

const portionen = (n: string | undefined) => (n === '1' ? '1 Portion' : `${n} Portionen`);

const wochenOf = (n: string | undefined) => (n === '1' ? '1 Woche' : `${n} Wochen`);
const binnenWochen = (n: string | undefined) => (n === '1' ? 'einer Woche' : `${n} Wochen`);

/** Wie gezogen wird, was im Boden wartet; 0 Wochen: jede Pflanze, sobald sie reif ist. */
const pulledOver = (weeks: string | undefined, from: string | undefined) => {
  if (weeks === '0') return 'einzeln, sobald reif,';
  return `über ${wochenOf(weeks)}${from ? ` ab ${from}` : ', sobald reif'}`;
};

const jahreOf = (n: string | undefined) => (n === '1' ? '1 Jahr' : `${n} Jahre`);
const zellenOf = (n: string | undefined) => (n === '1' ? '1 Zelle' : `${n} Zellen`);
/** Von mehr als einem, wie weit sie auseinander stehen. */
const abstand = (n: string | undefined, v: Record<string, string>) =>
  n === '1' ? '' : ` im Abstand von ${v.spacing_mm}`;
const stellen = (v: Record<string, string>) =>
  `${v.places} ${v.places === '1' ? 'Stelle' : 'Stellen'}${abstand(v.places, v)}`;
const horsteOf = (n: string | undefined) => (n === '1' ? '1 Horst' : `${n} Horste`);

const samenOf = (n: string | undefined, pieces: boolean) =>
  pieces ? `${n} Stück` : `${n} ${n === '1' ? 'Same' : 'Samen'}`;

/** Was von einer Kultur statt Samen gelegt wird, nach ihrer Kennung. */
const legeware: Record<string, [string, string]> = {
  potato: ['Pflanzkartoffel', 'Pflanzkartoffeln'],
  garlic: ['Zehe', 'Zehen'],
};
/** Kulturen, die gelegt oder gesteckt, nicht gesät werden. */
const isPlanted = (crop: string) => crop in legeware || crop === 'sweet-potato';
const legewareOf = (n: string, crop: string) => {
  const [one, many] = legeware[crop] ?? ['Stück', 'Stück'];
  return `${n} ${n === '1' ? one : many}`;
};

const stehen = (n: string) => (n === '1' ? '1 steht' : `${n} stehen`);

const pflanzenOf = (n: string | undefined) => (n === '1' ? '1 Pflanze' : `${n} Pflanzen`);
const wurde = (n: string | undefined) => (n === '1' ? 'wurde' : 'wurden');

const seedsEach = (v: Record<string, string>) => `je ${samenOf(v.seeds, false)}, ${v.depth_mm} tief`;

/** Gruppen der Küche, nach ihren Kennungen; alle so, dass „irgendein“ davor passt. */
const groups: Record<string, string> = {
  alliums: 'Zwiebelgemüse',
  'cooking-greens': 'Blattgemüse zum Kochen',
  fruits: 'Fruchtgemüse',
  heads: 'Kopfgemüse',
  herbs: 'Küchenkraut',
  pods: 'Hülsengemüse',
  roots: 'Wurzelgemüse',
  salad: 'Salat',
  stems: 'Stängelgemüse',
  tubers: 'Knollengemüse',
};

export const de: Texts = {
  language: 'Deutsch',
  locale: 'de-DE',
  appName: 'Sowtide',
  under: (least) => `unter ${least}`,
  aboutUnder: /\betwa (unter )/gi,
  skip: 'Zum Inhalt',
  nav: {
    label: 'Seiten',
    season: 'Jahr',
    today: 'Heute',
    table: 'Tisch',
    store: 'Vorrat',
    packets: 'Saatgut',
    plan: 'Plan',
    site: 'Ort',
    settings: 'Maße und Aussehen',
  },
  settings: {
    units: 'Maße',
    metric: 'Metrisch',
    us: 'US',
    look: 'Aussehen',
    system: 'Wie das Gerät',
    light: 'Hell',
    dark: 'Dunkel',
    language: 'Sprache',
    density: 'Höhe der Beete',
    low: 'Niedrig',
    tall: 'Hoch',
  },
  loading: 'Der Garten wird gelesen …',
  retry: 'Noch einmal',
  offline: 'Der Gartenrechner ist nicht erreichbar. Einträge bleiben hier und werden später gesendet.',
  waiting: (n, unkept) =>
    `${n === 1 ? '1 Eintrag wartet' : `${n} Einträge warten`} auf das Senden.${
      unkept
        ? ' Dieser Browser bewahrt für den Garten nichts auf: Seite erst schließen, wenn alles gesendet ist.'
        : ''
    }`,
  refused: 'Ein Eintrag wurde nicht angenommen:',
  dropRefused: 'Beiseitelegen',
  doubted: (deed) => `Eingetragen (${deed}), doch das fällt auf:`,
  doubtTrue: 'Es ist so',
  doubtWrong: 'Zurücknehmen',

  paper: {
    title: 'Auf Papier und im Kalender',
    size: 'Papier',
    sizes: { a4: 'A4', letter: 'Letter' },
    sheets: {
      labels: { name: 'Schilder', what: 'eines je Satz, mit einem Code, der ihn öffnet' },
      'sowing-sheet': { name: 'Aussaatblatt', what: 'die nächsten acht Wochen, zum Abhaken' },
      'bed-sheets': { name: 'Beetblätter', what: 'was wo steht, ein Blatt je Beet' },
      season: { name: 'Jahr', what: 'das ganze Jahr aller Beete' },
      table: { name: 'Tisch', what: 'was Woche für Woche in die Küche kommt' },
      handout: { name: 'Merkblatt', what: 'Aussaatzeiten dieses Ortes, zum Lehren' },
      calendar: { name: 'Kalenderdatei', what: 'die kommende Arbeit, für jeden Kalender' },
    },
  },
  season: {
    title: 'Das Jahr',
    lead: 'Die Zeit läuft nach rechts, die Länge jedes Beetes nach unten. Je kräftiger der Ton einer Fläche, desto sicherer ist sie erntereif.',
    zoom: 'Ausschnitt',
    year: 'Jahr',
    month: 'Monat',
    week: 'Woche',
    toToday: 'Zu heute',
    sheet:
      'Jahresbild. Pfeiltasten gehen von Fläche zu Fläche, Eingabe öffnet den Satz, Plus und Minus ändern den Ausschnitt.',
    beds: 'Beete',
    trays: 'Anzuchtplatten',
    bedName: (name, length) => `${name}, ${length}`,
    trayName: (name, cells) => `${name}, ${zellenOf(cells)}`,
    cells: (n) => zellenOf(n),
    todayLine: 'heute',
    legend: 'So liest man es',
    legendReady: 'Wahrscheinlichkeit, dass es reif ist',
    legendFade: 'Auslaufendes Ende: dann vielleicht schon fort',
    legendPlanned: 'Gestrichelter Rand: geplant',
    legendSown: 'Fester Rand: gesät',
    legendTicks: 'Kerben: erste Ernte in 1, 5 und 9 von 10 Jahren',
    legendFree: 'Gepunktet: noch freier Platz',
    none: 'Noch ist nichts geplant oder gesät. Sag, wo der Garten liegt, welche Beete er hat und was ihr essen wollt; ein Plan füllt dann dieses Bild.',
    noneYet: 'Noch ist nichts geplant oder gesät. Der Garten ist eingerichtet: Ein Plan füllt dieses Bild.',
    list: 'Alle Sätze als Liste',
    listOver: (n) => `Abgeerntet (${n})`,
  },
  panel: {
    title: 'Zahlen',
    hint: 'Tippe oder zeige auf eine Fläche oder eine freie Stelle, oder gehe mit den Tasten hin.',
    readyNow: 'Erntereif',
    sowNext: 'Als Nächstes zu säen',
    pickNext: 'Nächste erste Ernten',
    onDay: (day) => `Am ${day}`,
    ready: (share) => `reif in ${share} der Jahre`,
    gone: (share) => `steht mit ${share} Wahrscheinlichkeit noch da`,
    open: 'Diesen Satz öffnen',
    freeAt: (place) => `Freier Platz: ${place}`,
    free: (from, to) => `${from} bis ${to}`,
    moving: 'Verschieben',
    fixed: 'Schon gesät: verschieben lässt sich nur, was erst geplant ist.',
    movable: 'Geplant, also verschiebbar: ziehen, oder Umschalt mit den Pfeiltasten, oder hier.',
    earlier: 'Eine Woche früher',
    later: 'Eine Woche später',
    up: 'Im Beet hinauf',
    down: 'Im Beet hinunter',
    moved: (stand) => `Verschoben: ${stand}.`,
    noRoom: (others) => `Dort ist kein Platz: es stünde auf ${others}.`,
    noRoomFor: (stand, others) => `${stand}: kein Platz, wo es hin sollte; es stünde auf ${others}.`,
    undo: 'Zurückschieben',
    until: (day) => `bis ${day}`,
    table: 'Auf dem Tisch:',
    weeksWith: (before, after) =>
      before === after
        ? `${wochenOf(after)} mit etwas, wie bisher`
        : `${wochenOf(after)} mit etwas statt ${before}`,
    missing: (before, after) =>
      before === after ? `es fehlen ${after}, wie bisher` : `es fehlen ${after} statt ${before}`,
    estimate:
      'Eine schnelle Schätzung, nur mit dem, was frisch aus den Beeten kommt; was sich hält, wird gerechnet, sobald die Hand ruht.',
    reaches: (wish, wanted, before, after) =>
      `${wish}: von ${wanted} kämen so, wie es ist, ${before} auf den Tisch, nach dem Verschieben ${after}.`,
    reckoned:
      'Über alle Wetterjahre gerechnet, für ein Jahr von heute an, mit dem, was sich von Woche zu Woche hält.',
    always: 'soweit geplant ist',
    noFree: 'An dem Tag ist kein Platz frei.',
  },
  stand: {
    title: (crop, bed) => `${crop}, ${bed}`,
    labelled: (id) => `Schild ${id}`,
    code: 'Code dieses Satzes, zum Scannen',
    whyHere: 'Warum so',
    back: 'Zurück zum Jahr',
    where: 'Wo',
    when: 'Wann',
    size: 'Wie viel',
    state: 'Stand',
    success: 'Lohnt sich',
    pulled: 'Geerntet',
    pulledOver,
    sun: 'Sonne',
    place: (bed, from, to) => `${bed}, ${from} bis ${to}`,
    tray: (tray, cells) => `zuerst ${zellenOf(cells)} in ${tray}`,
    sownOn: (day) => `gesät ${day}`,
    setOutOn: (day) => `ausgepflanzt ${day}`,
    sowOn: (day, crop) => `${isPlanted(crop) ? 'zu legen' : 'zu säen'} ${day}`,
    buyOn: (day) => `zu kaufen und auszupflanzen ${day}`,
    clumps: (n, per, setting) => `${horsteOf(n)} zu ${per}, ${setting}`,
    plants: (n, setting) => `${pflanzenOf(n)}, ${setting}`,
    setting: {
      square: (spacing) => `Abstand ${spacing}`,
      offset: (spacing) => `Abstand ${spacing}, jede zweite Reihe um die Hälfte versetzt`,
      rows: (spacing, row) => `Abstand ${spacing} in der Reihe, ${row} von Reihe zu Reihe`,
    },
    years: (share) => `in ${share} der Jahre`,
    limitedBy: (what) => `Grenze: ${what}`,
    states: {
      planned: 'geplant',
      sown: 'gesät',
      up: 'aufgelaufen',
      growing: 'wächst',
      finished: 'abgeerntet',
    },
    overSince: (state: string, day: string) => `${state} seit ${day}`,
    events: 'Was wann kommt',
    eventNames: {
      emerge: 'Zur Hälfte aufgelaufen',
      'set-out': 'Auspflanzen',
      'first-pick': 'Erste Ernte',
      'last-pick': 'Letzte Ernte',
    },
    eventsCaption:
      'Balken: vom Tag, an dem es 1 von 10 Jahren erreicht hat, bis zu dem von 9 in 10; die Marke ist die Mitte.',
    early: 'Früh (1 in 10)',
    middle: 'Mitte',
    late: 'Spät (9 in 10)',
    chance: 'Kommt vor in',
    event: 'Ereignis',
    fan: 'Gewicht einer Pflanze',
    fanCaption:
      'Linie: das mittlere Jahr. Band: acht von zehn Jahren. Was reif wird, gilt als gleich geerntet, das Größte zuerst.',
    fanAt: (day, middle, low, high) => `${day}: ${middle}, zwischen ${low} und ${high}`,
    seen: {
      weighed: (day, grams) => `gewogen ${day}: ${grams}`,
      felt: (day, grams) => `gefühlt ${day}: etwa ${grams}`,
      'by eye': (day, grams) => `nach Auge ${day}: etwa ${grams}`,
    },
    fanNone: 'Es wird kein Wachstum erwartet, darum gibt es nichts zu zeichnen.',
    fanDay: 'Gezeigter Tag',
    sizesOn: (day: string) => `Wie viele wie groß sind am ${day}`,
    sizesNote:
      'Bis dahin in Ruhe gelassen. Jede Zeile zählt die Pflanzen dieser Größe und darüber und was sie zusammen wiegen.',
    sizeReached: 'Diese Größe oder größer',
    sizesReached: { smallest: 'kleinste', small: 'klein', large: 'groß', over_size: 'überständig' },
    sizeFrom: (grams: string) => `ab ${grams}`,
    weeks: 'Geerntet oder erntereif, je Woche',
    week: 'Woche ab',
    low: 'Wenig (1 in 10)',
    high: 'Viel (9 in 10)',
    readyShare: 'Reif',
    weeksNone: 'Es wird keine Ernte erwartet.',
    clumpsTitle: 'Das Beet im Maßstab',
    clumpsCaption: (side) =>
      `Der Abschnitt von oben, in einem Maßstab; jeder Ring ist der Platz eines Horstes, ${side} breit. Gefüllt: der Anteil am Endgewicht, den er heute haben sollte.`,
    firstOf: (drawn, all) => `Gezeichnet: die ersten ${drawn} von ${all}; der Bruch steht für den Rest.`,
    tight: (needs, has) =>
      `Bei diesem Abstand brauchen die Reihen ${needs}; der Abschnitt hat ${has} (gestrichelte Linie).`,
    nearer: (apart) =>
      `Die letzte Reihe ist nicht voll; darum stehen die Reihen ${apart} auseinander, und jeder Horst hat seinen Platz.`,
    facts: 'Was gesehen wurde',
    factNames: {
      sown: 'Gesät',
      emerged: 'Aufgelaufen',
      counted_plants: 'Gezählt',
      set_out: 'Ausgepflanzt',
      first_picked: 'Zuerst geerntet',
      picked_g: 'Bisher geerntet',
      greens_g: 'Laub geerntet bisher',
      plants_removed: 'Entnommen',
      measured_on: 'Gewogen am',
      measured_g: 'Gewogen',
    },
    logbook: 'Gartenbuch dieses Satzes',
    factsNone: 'Für diesen Satz ist noch nichts eingetragen.',
    missing: (id) => `Einen Satz ${id} gibt es in diesem Garten nicht.`,
  },
  ownStand: {
    title: 'Von Hand aufnehmen …',
    lead: 'Was kein Plan kennt: aus einer Laune gesät, als Pflanzen gekauft oder schon da. Bis heute gilt es als geschehen, später ist es geplant; ein Plan lässt es, wo es ist.',
    bed: 'Beet',
    count: 'Wie viele',
    clumps: 'Was zu mehreren in einer Zelle vorgezogen wird, zählt nach Zellen.',
    origin: 'Woher die Pflanzen kommen',
    origins: { here: 'hier gesät', tray: 'in einer Platte vorgezogen', bought: 'als Pflanzen gekauft' },
    days: { here: 'Gesät am', tray: 'In der Platte gesät am', bought: 'Ausgepflanzt am' },
    tray: 'Welche Platte',
    spacing: 'Abstand',
    perClump: 'Pflanzen in einem Horst',
    asUsual: 'wie üblich',
    ownPlace: 'Die Stelle im Beet selbst wählen',
    firstRoom: 'sonst, wo zuerst Platz ist',
    from: 'Von, das Beet entlang',
    put: 'Aufnehmen',
    notPut: 'Nicht aufgenommen:',
    done: 'Er ist aufgenommen.',
    open: 'Seine Seite öffnen',
    another: 'Noch einen aufnehmen',
    displaced: (stands) =>
      `Dort war geplant und hat jetzt keinen Platz: ${stands}. Ein neuer Plan findet einen anderen.`,
    displacedByHand: (stands) =>
      `Dort war von Hand aufgenommen und hat jetzt keinen Platz: ${stands}. Ein Plan lässt es, wo es ist: im Jahresbild verschieben.`,
  },
  mistake: {
    title: 'Aus Versehen aufgenommen …',
    lead: 'Nimmt ihn ganz zurück: nichts von ihm zählt, auch nicht als Fehlschlag. Was gesät wurde und nichts geworden ist, wird stattdessen als weggeworfen eingetragen.',
    put: 'Zurücknehmen',
    notPut: 'Nicht zurückgenommen:',
  },
  elsewhere: {
    title: 'Er steht woanders …',
    lead: 'Stellt richtig, was aufgeschrieben ist: im Garten wird nichts versetzt.',
    put: 'Richtigstellen',
    notPut: 'Nicht richtiggestellt:',
    stretch: (from, to) => `${from} bis ${to}`,
    done: (place) => `Richtiggestellt: ${place}.`,
  },
  plants: {
    title: 'Auspflanzen',
    instead: 'Er soll an Ort und Stelle gesät werden. Sind stattdessen Pflanzen gekauft, sag es hier.',
    bought: 'Die Pflanzen sind gekauft',
    mark: 'gekauft',
    byHand: 'von Hand aufgenommen',
    moved: 'von Hand verschoben: der nächste Plan lässt es dort',
    count: 'Pflanzen',
    day: 'Ausgepflanzt am',
  },
  ahead: {
    title: 'Die nächsten Wochen',
    thisWeek: 'Diese Woche',
    nextWeek: 'Nächste Woche',
    comes: 'Kommt in die Küche',
    nothing: 'Nichts aus den Beeten.',
    more: (n) => `und ${n} mehr`,
    short: 'Weniger als gewünscht',
    missing: (amount) => `${amount} fehlen`,
    night: (degrees) => `Eine Nacht mit ${degrees} oder kälter`,
    day: (degrees) => `Ein Tag mit ${degrees} oder heißer`,
    inYears: (what, share) => `${what}: in ${share} der Jahre`,
    table: 'Alle Wochen',
  },
  today: {
    title: 'Heute',
    lead: (day) => `${day}. Zuerst, was am meisten kostet, wenn es liegen bleibt.`,
    none: 'Diese Woche ist nichts zu tun.',
    due: (day) => `am besten ${day}`,
    latest: (day) => `kostet nach dem ${day}`,
    overdue: 'überfällig',
    caution: 'Vorsicht',
    log: (deed) => `Eintragen: ${deed}`,
    logged: 'Eingetragen',
    undo: 'Zurücknehmen',
    undone: 'Zurückgenommen.',
    loggedToday: 'Heute eingetragen',
    amount: 'Menge',
    less: 'Weniger',
    more: 'Mehr',
    noAmount: (typed, now) => `„${typed}“ ist hier keine Menge wie 12 oder 3,8: es bleibt bei ${now}.`,
    openStand: 'Satz',
    buy: 'Kaufen und auspflanzen',
    kinds: {
      sow: 'Säen',
      'check-emergence': 'Nachsehen, ob es aufläuft',
      're-sow': 'Nachsäen',
      'harden-off': 'Abhärten',
      'set-out': 'Auspflanzen',
      thin: 'Vereinzeln',
      pick: 'Ernten',
      look: 'Nachsehen',
      finish: 'Abräumen',
      eat: 'Essen',
      'throw-away': 'Wegwerfen',
      protect: 'Schützen',
      water: 'Gießen',
      feed: 'Düngen',
    },
    count: 'Stück',
    onePiece: 'Stück',
    pieces: {
      kinds: { sow: 'Legen', 're-sow': 'Nachlegen' },
      done: 'gelegt',
      doneAgain: 'Nichts kam: nachgelegt',
    },
    oneSeed: 'Same',
    counts: { sown: 'Samen', counted: 'aufgelaufen', 'set-out': 'ausgepflanzt', thinned: 'entnommen' },
    sownAgain: 'Nichts kam: nachgesät',
    givenUp: 'Nichts kam: Platz räumen',
    events: {
      sown: 'gesät',
      counted: 'gezählt',
      'set-out': 'ausgepflanzt',
      thinned: 'entnommen',
      watered: 'gegossen',
      fed: 'gedüngt',
      measured: 'gemessen',
      picked: 'geerntet',
      stored: 'eingelagert',
      eaten: 'gegessen',
      discarded: 'weggeworfen',
      noted: 'notiert',
    },
    planAgain: 'Neu planen',
    together: (amount, places) => (amount ? `etwa ${amount} an ${places} Stellen` : `an ${places} Stellen`),
    firstAt: (place) => `zuerst ${place}`,
    each: (n) => `Alle ${n} einzeln`,
    doneToday: 'Heute erledigt',
    missedSowings: (n, days) =>
      `${n === 1 ? 'Eine Saat ist' : `${n} Saaten sind`} versäumt, bis zu ${days === '1' ? 'einem Tag' : `${days} Tagen`}: Neu planen findet, was noch lohnt.`,
    sownAllTheSame: 'Trotzdem gesät',
    later: (crops) => `Noch nichts zu tun, nur nachzusehen: ${crops}`,
    cleared: 'geräumt',
    toStore: (place: string) => `Ins Lager: ${place}`,
    all: 'Alles; es steht nichts mehr',
  },
  said: {
    stretch: (v) => `${v.bed}, ${v.from_m} bis ${v.to_m}`,
    'named-place': (v) => `${v.name}`,
    'a-tray': () => 'Anzuchtplatte',
    store: (v) => `im Vorrat: ${places[v.place as keyof typeof places]}`,
    'sow-cells': (v) => `${zellenOf(v.cells)}, ${seedsEach(v)}`,
    'sow-places': (v) => `${stellen(v)}, ${seedsEach(v)}`,
    'plant-places': (v) => `${stellen(v)}, je ein Stück, ${v.depth_mm} tief`,
    'plant-cells': (v) => `${zellenOf(v.cells)}, je ein bewurzelter Trieb oder ein Stück`,
    'sow-tray-cells': (v) => `${zellenOf(v.cells)}, je ${samenOf(v.seeds, false)}`,
    'pot-on': (v) => `${v.cells} in Töpfe von ${v.width_mm}`,
    'look-and-count': () => 'nach Keimlingen sehen und sie zählen',
    'look-and-take-off-mat': () =>
      'nach Keimlingen sehen, sie zählen und was aufgelaufen ist von der Matte nehmen',
    'look-or-sow': (v) => `nachsehen; wenn nichts kommt, noch einmal ${v.seeds} Samen säen`,
    'off-the-mat': () => 'was aufgelaufen ist, von der Matte nehmen',
    'look-for-shoots': () => 'nach Trieben sehen und sie zählen',
    'look-or-plant': (v) => `nachsehen; wenn nichts kommt, noch einmal ${v.pieces} Stück legen`,
    'look-if-dead': () => 'nachsehen; eintragen, was hin ist, und neu säen oder Pflanzen kaufen',
    'look-if-planted-dead': () => 'nachsehen; eintragen, was hin ist, und neu legen',
    'look-or-buy': () => 'nachsehen; eintragen, was hin ist, und Pflanzen kaufen',
    'look-or-resow': () => 'nachsehen; eintragen, was hin ist, und neu säen',
    'give-place': () => 'den Platz einer anderen Kultur geben',
    'look-and-clear': () => 'nachsehen und den Platz räumen',
    'compost-or-try': () => 'auf den Kompost, oder ein paar zur Probe auspflanzen',
    'look-or-leave': () => 'nachsehen; wenn nichts kommt, den Platz einer anderen Kultur geben',
    harden: (v) => `${daysOf(v.days)} nach draußen, jeden Tag länger`,
    'set-clumps': (v) => `${horsteOf(v.count)}${abstand(v.count, v)}`,
    'buy-plants': (v) => `${pflanzenOf(v.count)} kaufen und${abstand(v.count, v)} auspflanzen`,
    'set-plants': (v) => `${pflanzenOf(v.count)}${abstand(v.count, v)}`,
    leave: (v) => `an jeder Stelle ${v.plants} stehen lassen, im Abstand von ${v.spacing_mm}`,
    'pick-about': (v) => `etwa ${v.middle_g} in sieben Tagen (${v.low_g} bis ${v.high_g})`,
    'pick-perhaps': (v) =>
      `in sieben Tagen gibt es in ${v.chance_share} der Jahre etwas: dann etwa ${v.middle_g}, selten über ${v.high_g}`,
    'pull-all': (v) => `alles, etwa ${v.weight_g}`,
    'pull-largest': (v) =>
      `${v.plants === '1' ? 'die größte' : `die ${v.plants} größten`}, etwa ${v.weight_g}; die anderen wachsen weiter`,
    'pull-one-of-few': (v) =>
      `die größte, etwa ${v.weight_g}, wenn in ${v.weeks === '1' ? 'der letzten Woche' : `den letzten ${v.weeks} Wochen`} keine geholt wurde`,
    'pull-largest-each': (v) => `aus jedem Horst die größte, etwa ${v.weight_g}; die anderen wachsen weiter`,
    'may-wait': (v) =>
      `bis jetzt etwa ${v.weight_g}; ${v.weeks === '1' ? 'eine Woche mehr bringt' : `${v.weeks} Wochen mehr bringen`} etwa ${v.gain_g} dazu`,
    'lift-and-store': (v) =>
      `alles ernten, etwa ${v.weight_g}, und einlagern: ${storedIn(v.place)} hält es bis etwa ${v.until}`,
    'take-and-freeze': (v) =>
      `alles, etwa ${v.weight_g}, zum Essen oder zum Einfrieren (${blanching(v.of_crop)}), oder in kalten Nächten abdecken`,
    'take-or-cover': (v) =>
      `alles, etwa ${v.weight_g} (${storedIn(v.place)} hält es bis etwa ${v.until}), oder in kalten Nächten abdecken`,
    'pick-ready': () => 'was reif ist',
    clear: () => 'den Platz räumen',
    cover: () => 'in kalten Nächten abdecken',
    'look-over': (v) => `${v.weight_g}: durchsehen, was gut ist, essen, und den Rest wegwerfen`,
    weight: (v) => `${v.weight_g}`,
    'half-up': (v) => `die Hälfte ist zu sehen ${v.days}`,
    'first-pick': (v) =>
      `erste Ernte ${v.days} (8 von 10 Jahren); lohnt sich in ${v.success_share} der Wetterjahre`,
    'log-stand-over': (v) =>
      `nach dem Gartenbuch ist der Satz ${v.stand} zu Ende: alles geerntet oder abgeräumt`,
    'log-before-stand': (v) => `${v.day} liegt vor dem Beginn des Satzes ${v.stand}, ${v.first}`,
    'log-long-after': (v) =>
      `${v.day} liegt ${daysOf(v.days)} nach dem letzten bekannten Tag des Satzes ${v.stand}, ${v.last}`,
    'log-place-taken': (v) =>
      `nach dem Gartenbuch steht dort ${v.other} (${v.crop}): dessen Ende eintragen, oder den verschieben, der woanders steht`,
    'log-many-seeds': (v) => `${samenOf(v.seeds, false)}, wo der Plan ${v.planned} hat`,
    'log-few-seeds': (v) => `${samenOf(v.seeds, false)}, wo der Plan ${v.planned} hat`,
    'log-no-seeds': (v) =>
      `keine Samen, wo der Plan ${v.planned} hat: wo nichts gesät wurde, braucht es keinen Eintrag`,
    'log-many-pieces': (v) => `${samenOf(v.pieces, true)}, wo der Plan ${v.planned} hat`,
    'log-few-pieces': (v) => `${samenOf(v.pieces, true)}, wo der Plan ${v.planned} hat`,
    'log-no-pieces': (v) =>
      `kein Stück, wo der Plan ${v.planned} hat: wo nichts gelegt wurde, braucht es keinen Eintrag`,
    'log-planted-before': (v) =>
      `der Satz ${v.stand} wurde schon am ${v.day} gelegt: was beide Male gelegt wurde, zählt zusammen`,
    'log-shoots': (v) =>
      `${v.shoots === '1' ? '1 Trieb zählt' : `${v.shoots} Triebe zählen`} als ${pflanzenOf(v.plants)}: ein Stück treibt mehrere, und mehr wurden nicht gelegt`,
    'log-more-than-sown': (v) =>
      `${pflanzenOf(v.plants)}, wo nach dem Gartenbuch ${samenOf(v.seeds, false)} gesät ${wurde(v.seeds)}`,
    'log-more-out-than-raised': (v) =>
      `${pflanzenOf(v.plants)}, wo nach dem Gartenbuch ${v.raised} vorgezogen ${wurde(v.raised)}`,
    'log-more-out-than-planned': (v) =>
      `damit ${wurde(v.plants)} ${pflanzenOf(v.plants)} ausgepflanzt, wo der Plan ${v.planned} hat`,
    'log-much-for-ground': (v) =>
      `damit wurden ${v.picked_g} vom Satz ${v.stand} geerntet, und sein Boden gibt kaum mehr als ${v.most_g}`,
    'log-little-for-plants': (v) =>
      `${v.picked_g} sind wenig für ${pflanzenOf(v.plants)}: sieh noch einmal nach dem Gewicht`,
    'log-little-for-plants-unit': (v) =>
      `${v.picked_g} sind wenig für ${pflanzenOf(v.plants)}: sieh noch einmal nach dem Gewicht und seiner Einheit`,
    'log-sown-before': (v) =>
      `der Satz ${v.stand} wurde schon am ${v.day} gesät: die Samen beider Saaten zählen zusammen`,
    'log-day-ahead': (v) =>
      `der Tag liegt ${daysOf(v.days)} nach dem ${v.today}, heute nach der Uhr dieses Rechners: eingetragen wird, was getan ist`,
    'log-before-its-day': (v) => `${v.day} liegt ${daysOf(v.days)} vor dem geplanten Tag, ${v.planned_day}`,
    'log-after-its-day': (v) => `${v.day} liegt ${daysOf(v.days)} nach dem geplanten Tag, ${v.planned_day}`,
    'log-more-than-counted': (v) =>
      `${pflanzenOf(v.plants)}, wo nach dem Gartenbuch noch ${v.left} der gezählten ${v.stood} da ${v.left === '1' ? 'ist' : 'sind'}`,
    'log-more-than-planned': (v) =>
      `${pflanzenOf(v.plants)}, wo nach dem Gartenbuch noch ${v.left} der geplanten ${v.stood} da ${v.left === '1' ? 'ist' : 'sind'}`,
    'log-many-thinned': (v) =>
      `zusammen ${v.thinned} ${v.thinned === '1' ? 'Sämling' : 'Sämlinge'} vereinzelt, von ${samenOf(v.seeds, false)}: von den geplanten ${v.planned} ${v.left === '1' ? 'ist' : 'sind'} höchstens ${v.left} übrig`,
    'log-diameter-unread': (v) =>
      `ein Durchmesser sagt bei ${v.crop} nichts über das Gewicht, also ändert er nichts: wieg stattdessen eine, oder einige zusammen`,
    'log-measured-early': (v) =>
      `${v.day} ist früh zum Messen: vom Satz ${v.stand} ist vor dem ${v.up} kaum etwas aufgelaufen`,
    'log-measured-heavy': (v) =>
      `${v.plant_g} je Pflanze, wo nach dem Wetter an dem Tag ${v.likely_g} viel sind: sieh nach Einheit und Ziffern`,
    'log-greens-as-roots': (v) =>
      `es ist von Laub die Rede, und ganze Pflanzen von ${v.crop} gelten als gezogen: für Laub allein beginnt der Text mit dem Wort leaves`,
    'log-leaves-as-roots': (v) =>
      `es ist von Laub die Rede, und ganze Pflanzen von ${v.crop} gelten als gezogen`,
    'log-stored-unpicked': (v) =>
      `vom Satz ${v.stand} wurde nach dem Gartenbuch nichts geerntet: auch die Ernte eintragen, oder den Satz berichtigen`,
    'log-more-stored': (v) =>
      `damit wurden ${v.stored_g} vom Satz ${v.stand} eingelagert, und ${v.picked_g} geerntet`,
    'log-nothing-in-store': (v) =>
      `vom Satz ${v.stand} liegt an dem Tag nichts im Vorrat, und der Vorrat bleibt, wie er ist`,
    'log-nothing-of-lot': (v) =>
      `vom Posten ${v.lot} liegt an dem Tag nichts im Vorrat, und der Vorrat bleibt, wie er ist`,
    'log-little-in-store': (v) => `vom Satz ${v.stand} lagen nur ${v.there_g} im Vorrat`,
    'log-little-of-lot': (v) => `vom Posten ${v.lot} lagen nur ${v.there_g} im Vorrat`,
    'picked-from': (v) =>
      `geerntet ab ${v.day}, dem Tag des Plans (reif ${v.days} in 8 von 10 Jahren); lohnt sich in ${v.success_share} der Wetterjahre`,
    'no-harvest': () =>
      'in keinem der Wetterjahre ist eine Ernte in Sicht: vor dem Säen noch einmal bedenken',
    missed: (v) => `um ${daysOf(v.days)} versäumt: ein neuer Plan findet, was noch sinnvoll ist`,
    'tray-too-late': (v) =>
      `in der Platte zu groß geworden oder zu spät im Jahr: jetzt ausgepflanzt lohnt sich die Ernte in ${v.success_share} der Wetterjahre`,
    'likely-killed': (v) => `die Nacht mit ${v.night_c} am ${v.day} hat ihn wahrscheinlich getötet`,
    'stand-over': (v) => `zu Ende seit ${v.day}`,
    'judged-as-set-out': (v) =>
      `Nach dem Gartenbuch steht er noch in der Schale; beurteilt wie ausgepflanzt am ${v.day}.`,
    'past-eating': (v) => `seit ${v.day} wahrscheinlich nicht mehr genießbar`,
    'to-set-out': (v) => `auszupflanzen um den ${v.day}`,
    'harden-bought': (v) =>
      `Pflanzen aus einem warmen Haus stehen erst ${daysOf(v.days)} lang tagsüber draußen`,
    'fit-to-set-out': (v) => `kräftig genug und mild genug ${v.days}`,
    crowded: (v) => `etwa ${v.seedlings} Keimlinge stehen an jeder Stelle; zu dicht bleiben sie klein`,
    ready: (v) => `erntereif mit ${v.chance_share} Wahrscheinlichkeit`,
    'kitchen-short': (v) => `der Küche fehlen in dieser Woche ${v.short_g}`,
    past: (v) => `seit ${v.day} über die Zeit`,
    'killing-night': (v) =>
      `eine Nacht mit ${v.night_c} oder kälter, die die Hälfte tötet, kommt binnen ${v.days === '1' ? 'eines Tages' : `${v.days} Tagen`} in ${v.chance_share} der Wetterjahre`,
    'too-little-sun': (v) =>
      `braucht mindestens ${v.needed_h} Stunden Sonne am Tag, und ${v.bed} hat weniger als ${v.less_than_h}: bringt weniger und später`,
    'others-grow-on': () => 'die größten sind groß genug, und die anderen wachsen weiter',
    'waiting-adds-little': () => 'Warten bringt wenig oder kostet etwas',
    'frost-by-then': (v) =>
      `in ${v.lost_years} von ${v.years} Jahren beendet Frost den Satz binnen ${binnenWochen(v.weeks)}`,
    'in-store': (v) => `eingelagert am ${v.since}; hält bis etwa ${v.until}`,
    'kept-until': (v) => `eingelagert am ${v.since}; hielt bis etwa ${v.until}, das ist vorbei`,
    'heat-near-water': () =>
      'Elektrische Wärme nahe am Wasser: die Anleitung des Herstellers befolgen und einen Fehlerstrom-Schutzschalter benutzen.',
    'should-be-up': (v) =>
      `sollte seit ${v.by} aufgelaufen sein: in 9 von 10 Fällen wäre bis dahin die Hälfte zu sehen. Nachsehen`,
    'place-taken': (v) =>
      `sein Platz ist von ${v.stand} (${v.crop}) besetzt, der bis etwa ${v.until} dort steht: diesen verschieben oder neu planen`,
    'none-left': (v) => `nach der Zählung vom ${v.day} war nichts mehr da`,
    'buy-again': (v) =>
      `gekaufte Pflanzen können noch bis etwa ${v.by} ausgepflanzt werden (heute ausgepflanzt bringen sie in ${v.success_share} der Jahre eine lohnende Ernte)`,
    'next-days-to-buy': (v) =>
      `die nächsten Tage, um hier gekaufte Pflanzen auszupflanzen, sind ${v.from} bis ${v.to}`,
    'too-late-to-buy': () => 'zu spät, an seiner Stelle gekaufte Pflanzen auszupflanzen',
    'none-came': (v) => `am ${v.day} war nichts zu sehen`,
    'should-show': (v) =>
      `die Hälfte sollte in 9 von 10 Fällen bis ${v.by} zu sehen sein (bis heute in ${v.today_share})`,
    'nothing-yet': () => 'noch nichts zu tun',
    'too-late-again': (v) =>
      `heute neu gesät lohnt sich die Ernte nur in ${v.success_share} der Jahre: zu spät`,
    'next-days-again': (v) =>
      `zu spät für eine neue Aussaat: ihre nächsten Tage sind hier ${v.from} bis ${v.to}`,
    'too-late-to-plant-again': (v) =>
      `heute neu gelegt lohnt sich die Ernte nur in ${v.success_share} der Jahre: zu spät`,
    'next-days-to-plant-again': (v) =>
      `zu spät, um neu zu legen: die nächsten Tage dafür sind hier ${v.from} bis ${v.to}`,
    'no-days-again': () =>
      'zu spät: nach den Fenstern eignet sich hier kein Tag des Jahres, also gib den Platz einer anderen Kultur',
    'plant-again': (v) =>
      `neu legen bis etwa ${v.by} (heute gelegt lohnt sich die Ernte in ${v.success_share} der Jahre${v.first_pick ? `, erste Ernte um den ${v.first_pick}` : ''})`,
    'sow-again': (v) =>
      `neu säen bis etwa ${v.by} (heute gesät lohnt sich die Ernte in ${v.success_share} der Jahre${v.first_pick ? `, erste Ernte um den ${v.first_pick}` : ''})`,
    'ripe-by-today': (v) => `Etwa ${v.now_g} sind bis heute reif.`,
    'frost-will-have-ended': (v) =>
      `In ${v.lost_years} von ${v.years} Jahren beendet Frost den Satz binnen ${binnenWochen(v.weeks)}: jetzt alles ernten, etwa ${v.now_g}.`,
    'store-in': (v) => `Gelagert hält es ${storedIn(v.place)} bis etwa ${v.until}.`,
    'keeps-short': (v) =>
      `Es hält ${storedIn(v.place)} nur bis etwa ${v.until}; in kalten Nächten abdecken ist der andere Weg.`,
    'greens-freeze': (v) =>
      `Was nicht bald gegessen wird, lässt sich einfrieren (${blanching(v.of_crop)}); in kalten Nächten abdecken ist der andere Weg.`,
    'week-costs': (v) =>
      `Bleibt es eine Woche hängen, kommen bis dahin etwa ${v.cost_g} weniger herein: was länger hängt, wird grob oder fällt ab.`,
    'next-picking': (v) =>
      `Die nächste Ernte ist ${v.days === '1' ? 'morgen' : `in ${v.days} Tagen`}: etwa ${v.middle_g} (${v.low_g} bis ${v.high_g}).`,
    'last-picking': () => 'Es ist die letzte Ernte.',
    'next-cut': (v) =>
      `Wieder zu schneiden ist es ${v.days === '1' ? 'morgen' : `in etwa ${v.days} Tagen`}: ${v.middle_g} (${v.low_g} bis ${v.high_g}).`,
    'is-past': (v) =>
      `In ${v.past_years} von ${v.years} Jahren war es vor heute zu Ende; häufigster Grund: ${limits[v.cause ?? ''] ?? v.cause}. Was noch gut ist, kommt jetzt herein.`,
    'ripens-not': () => 'In den nächsten drei Wochen reift nichts.',
    'ends-it': (v) =>
      `In ${v.lost_years} von ${v.years} Jahren ist es binnen ${binnenWochen(v.weeks)} zu Ende; häufigster Grund: ${limits[v.cause ?? ''] ?? v.cause}.`,
    'leaves-for-kitchen': (v) =>
      `In dieser Woche fehlen ${v.short_g} Blattgemüse zum Kochen: was man von diesen Blättern auf einmal nehmen darf, gibt heute ${v.now_g} und kostet die Wurzeln in ${wochenOf(v.weeks)} ${v.cost_g}.`,
    'kitchen-lacks': (v) => `Der Küche fehlen in dieser Woche ${v.short_g}.`,
    'next-loses': (v) =>
      `Was als Nächstes hier wachsen soll, verliert${v.since ? ` ab ${v.since}` : ''} mit jeder Woche Warten so viel wie ${v.week_g}.`,
    'waiting-adds': (v) =>
      `${v.weeks === '1' ? 'Eine Woche' : `${v.weeks} Wochen`} Warten ${v.weeks === '1' ? 'bringt' : 'bringen'} etwa ${v.middle_g} mehr (${v.low_g} bis ${v.high_g}).`,
    'largest-come-to': (v) =>
      `Die größten aller Horste wiegen zusammen ${v.now_g}; die anderen gewinnen durch deren Licht in zwei Wochen ${v.gain_g}.`,
    'plan-pulls': (v) => `Der Plan lässt ihn stehen; geerntet wird ${pulledOver(v.pull_weeks, v.pull_from)}.`,
    'plan-pulls-one': (v) =>
      `Nach dem Plan wird ${pulledOver(v.pull_weeks, v.pull_from)} geerntet: ${v.each_weeks === '1' ? 'jede Woche' : `alle ${v.each_weeks} Wochen`} eine von etwa ${v.plant_g}.`,
    'plan-pulls-now': (v) =>
      `Nach dem Plan wird ${pulledOver(v.pull_weeks, v.pull_from)} geerntet: etwa ${v.middle_g} in den nächsten sieben Tagen (${v.low_g} bis ${v.high_g}).`,
    'plan-before-most': (v) =>
      `Ganz stehen gelassen wäre er in ${binnenWochen(v.weeks)} am meisten wert; der Plan verteilt ihn stattdessen auf alle seine Wochen.`,
    'outgrows-plan': (v) =>
      `Binnen ${binnenWochen(v.weeks)} sind ${v.over_share} der Pflanzen übergroß, mehr als der Plan bis dahin erntet: jetzt die größten nehmen.`,
    'still-small': (v) =>
      `Sein Tag ist da, doch Pflanzen von ${v.now_g} sind weniger als kleine, die ${v.small_g} wiegen: sie wachsen noch.`,
    'ends-before-eaten': (v) =>
      `In ${v.lost_years} von ${v.years} Jahren ist es binnen ${binnenWochen(v.weeks)} zu Ende (häufigster Grund: ${limits[v.cause ?? ''] ?? v.cause}), und der Plan erntet bis dahin nur ${v.planned_g}: jetzt alles ernten, etwa ${v.now_g}, zum Essen oder Lagern.`,
    'good-until': (v) => `Ab etwa ${v.day} ist wahrscheinlich nichts Gutes mehr daran.`,
    'largest-meet': (v) =>
      v.plants === '1'
        ? 'Die größte deckt, was der Küche fehlt.'
        : `${v.plants} der größten decken, was der Küche fehlt.`,
    'largest-in-part': (v) =>
      v.plants === '1'
        ? 'Nur die eine, die schon groß ist: die anderen bringen durch Warten weit mehr.'
        : `Nur die ${v.plants}, die schon groß sind: die anderen bringen durch Warten weit mehr.`,
    'plant-weighs': (v) =>
      `Eine Pflanze wiegt jetzt ${v.now_g} und in einer Woche ${v.middle_g} (${v.low_g} bis ${v.high_g}).`,
    sizes: (v) =>
      `${v.large_share} der Pflanzen haben die große Größe, ${v.over_share} liegen darüber, ${v.small_share} sind klein, ${v.too_small_share} zu klein.`,
    'cut-brings-more': (v) =>
      `Ein Schnitt der halben Blattmasse bringt ${v.now_g}; mit dem Nachwuchs sind das in drei Wochen ${v.change_g} mehr als beim Stehenlassen.`,
    'cut-brings-less': (v) =>
      `Ein Schnitt der halben Blattmasse bringt ${v.now_g}; mit dem Nachwuchs sind das in drei Wochen ${v.change_g} weniger als beim Stehenlassen.`,
    'want-short': (v) => `${v.want}: der Plan bringt ${v.met_share} der gewünschten ${v.wanted_g}`,
    'no-week': () => 'in keiner Woche des Plans gibt es hier eine Ernte',
    'no-week-often-enough': (v) =>
      `in keiner Woche des Plans gibt es hier oft genug eine Ernte (${limits[v.cause ?? ''] ?? v.cause})`,
    'too-late-this-season': (v) =>
      `für diese Saison ist es zu spät (${limits[v.cause ?? ''] ?? v.cause}), und die Ernte der nächsten käme erst nach der letzten Woche des Plans`,
    'harvest-after-plan': () => 'die Ernte käme erst nach der letzten Woche des Plans',
    'no-bed': () => 'der Garten hat kein Beet',
    'no-tray-to-raise-it': () =>
      'es wird nicht an Ort und Stelle gesät, und der Garten hat keine Platte zum Vorziehen: beschreib eine, oder sag beim Wunsch, dass die Pflanzen gekauft werden',
    'no-bed-for-it': () => 'kein Beet hat die nötige Sonne oder Breite',
    'no-cells-to-raise-it': () =>
      'keine Platte hat die Zellen, die eine Pflanze davon braucht: beschreib eine mit mehr oder größeren Zellen, oder sag beim Wunsch, dass die Pflanzen gekauft werden',
    'not-ready-then': () =>
      'in den meisten Wochen, in denen es fehlt, kann nichts reif oder im Vorrat noch gut sein',
    'beds-taken': () => 'Beete sind von Wichtigerem belegt',
    'cells-taken': () => 'die Anzuchtzellen sind von Wichtigerem belegt',
    'mat-taken': () => 'die warmen Zellen sind von Wichtigerem belegt',
    'hours-taken': () => 'es bräuchte mehr Arbeit, als eine Woche dafür hat',
    'seed-to-be-bought': () => 'dafür müsste Saatgut gekauft werden',
    'more-comes-when-enough': () => 'mehr davon käme meist dann, wenn genug da ist',
    'only-small-stands-left': () =>
      'was an Platz übrig ist, ist zu klein oder zu kurz frei für einen Satz, der die Mühe lohnt',
    'weather-of-some-years': () => 'in den meisten Jahren reicht es, im Wetter einiger nicht',
    'packet-too-small': (v) =>
      `die Tüte ${v.crop} (${v.packet}) enthält ${v.seeds} Samen; der Plan sät ${v.sown}`,
    'seed-to-buy': (v) => `keine Tüte ${v.crop} (der Plan sät ${v.sown})`,
    'seed-reckons-more': () =>
      'wie viel zu kaufen ist, Alter, Ausfälle und kalten Boden eingerechnet, steht auf der Seite Saatgut',
    'weather-ends': (v) =>
      `das Wetter ist nur für ${v.weeks} der ${v.asked} verlangten Wochen bekannt; der Plan endet dort`,
    'total-left-out': (v) => `${v.want}: der letzte Tag liegt außerhalb des Plans; die Menge bleibt weg`,
    'choices-cut-short': (v) =>
      `die Zeit reichte nur für ${v.seen} von ${v.of} möglichen Saaten; mit mehr Zeit wird der Plan besser`,
    'store-counted': (v) =>
      v.eat_by === undefined
        ? `${v.total_g} ${v.crop} im Vorrat zählen für den Tisch, längstens bis ${v.to}`
        : `${v.total_g} ${v.crop} im Vorrat zählen für den Tisch: etwa ${v.good_then_g} sind am ${v.eat_by} noch gut, dem letzten Tag, bis zu dem es nach dem Vorrat gegessen sein soll; was dann noch gut ist, zählt längstens bis ${v.to}`,
    'stand-without-bed': (v) =>
      `der Satz mit dem Schild ${v.stand} hat kein Beet in diesem Garten; er zählt für den Tisch, nicht für den Platz`,
    'stand-beyond-plan': (v) =>
      `der Satz mit dem Schild ${v.stand} beginnt nach den Wochen, auf die dieser Plan sieht; sein Platz bleibt frei, und nichts von ihm zählt`,
    'aged-by-equation': (v) =>
      `${v.fresh_share} beim Abfüllen, ${jahreOf(v.age_years)} bei ${v.store_c} und ${v.moisture_share} Wasser, nach der Lebensfähigkeits-Gleichung: ${v.expected_share}`,
    'aged-by-life': (v) =>
      `${v.fresh_share} beim Abfüllen, ${jahreOf(v.age_years)} trocken bei ${v.store_c}, und die Hälfte ist nach ${v.life_years} übrig, wie solcher Samen meist liegt: ${v.expected_share}`,
    'packet-comes-up': (v) =>
      `von der Tüte ${v.packet} keimen heute ${v.middle_share} (${v.low_share} bis ${v.high_share})`,
    tested: (v) =>
      `${v.day}: ${v.before_share}, ${v.seeds === '1' ? 'als wäre es 1 Same' : `als wären es ${v.seeds} Samen`} gewesen, und ${v.came_up} von ${v.sown} keimten`,
    'come-up': (v) => `${v.middle_share} keimen heute (${v.low_share} bis ${v.high_share})`,
    renew: () => 'weniger als die Hälfte einer frischen Tüte: ersetzen',
    'test-first': (v) =>
      `${jahreOf(v.age_years)} alt, und Samen von ${v.crop} halten, wie es heißt, ${v.life_years}: erst 20 auf feuchtem Papier auslegen`,
    'sow-thicker': (v) => `${v.times}-mal so dicht säen wie frischen Samen`,
    'sow-thicker-than-told': (v) =>
      `${v.times}-mal so dicht säen wie hier gesagt, wo mit frischem Saatgut gerechnet ist`,
    'fresh-packet': (v) => `eine frische Tüte ${v.fresh_share}`,
    'stand-changed': (v) =>
      `${v.crop} (${v.stand}): ${[
        v.days_later && `${daysOf(v.days_later)} später gesät`,
        v.days_earlier && `${daysOf(v.days_earlier)} früher gesät`,
        v.clumps && `${v.clumps} statt ${v.clumps_before}`,
        v.bed && `in ${v.bed} statt ${v.bed_before}`,
        v.tray && `angezogen in ${v.tray} statt ${v.tray_before}`,
        v.pick_weeks &&
          `geerntet ${pulledOver(v.pick_weeks, v.pick_from)} statt ${pulledOver(v.pick_weeks_before, v.pick_from_before)}`,
      ]
        .filter(Boolean)
        .join(', ')}`,
    'stand-left-out': (v) => `${v.crop} (${v.stand}): entfällt (${v.clumps} am ${v.sow} in ${v.bed})`,
    'place-taken-meanwhile': (v) =>
      `${v.crop}: entfällt (${v.clumps} am ${v.sow} in ${v.bed}), denn der Platz wurde belegt, während geplant wurde`,
    'no-longer-fits': (v) =>
      `${v.crop}: entfällt (${v.clumps} am ${v.sow} in ${v.bed}), denn Beet, Platte, Tütchen oder Sorte wurden geändert, während geplant wurde`,
    'stand-changed-meanwhile': (v) =>
      `${v.crop} (${v.stand}): bleibt, wie es ist, denn es wurde begonnen oder verschoben, während geplant wurde`,
    'stand-new': (v) => `${v.crop}: neu, ${v.clumps} am ${v.sow} in ${v.bed}`,
    'bought-left-out': (v) =>
      `${v.crop} (${v.stand}): entfällt (${v.clumps} zu kaufen für den ${v.set_out} in ${v.bed})`,
    'bought-new': (v) => `${v.crop}: neu, ${v.clumps} zu kaufen für den ${v.set_out} in ${v.bed}`,
    'nobody-asks': () => 'kein Wunsch verlangt es mehr',
    'day-is-past': () => 'der Tag zum Säen ist vorbei',
    'day-to-buy-is-past': () => 'der Tag zum Kaufen ist vorbei',
    'bed-is-gone': () => 'das Beet gibt es nicht mehr',
    'sowing-then-fails': (v) =>
      `am alten Tag begonnen misslingt es zu oft (${limits[v.cause ?? ''] ?? v.cause})`,
    'asked-in-other-weeks': () => 'die Wünsche verlangen es jetzt in anderen Wochen',
    'better-sowing-near': () => 'ein anderer Tag ist in allem besser',
    'ground-held-by': (v) =>
      `auf dem alten Platz steht dann ${v.crop} (${v.stand})${v.until ? `, in den meisten Jahren bis ${v.until}` : ''}`,
    'ground-goes-to': (v) =>
      `auf dem alten Platz steht jetzt ${v.crop} (${v.stand}), ohne das dem Tisch ${portionen(v.servings)} fehlten`,
    'stand-failed-since': (v) =>
      `seit dem letzten Plan ist aus ${v.crop} (${v.stand}) nichts geworden (Eintrag vom ${v.on})`,
    'stand-fewer-since': (v) =>
      `seit dem letzten Plan stehen von ${v.crop} (${v.stand}) nur ${v.plants} der geplanten Pflanzen, ${v.planned} im Ganzen (Eintrag vom ${v.on})`,
    'stand-over-since': (v) =>
      `seit dem letzten Plan ist ${v.crop} (${v.stand}) abgeerntet (Eintrag vom ${v.on})`,
    'ground-free-since': (v) => `der Platz von ${v.crop} (${v.stand}) ist seit ${v.on} frei`,
    'want-more-since': (v) => `es ist mehr ${v.want} gewünscht als beim letzten Plan`,
    'want-less-since': (v) => `es ist weniger ${v.want} gewünscht als beim letzten Plan`,
    'want-new-since': (v) => `${v.want} war beim letzten Plan noch nicht gewünscht`,
    'family-held-off-by': (v) =>
      `${v.crop} (${v.stand}) ist von derselben Familie, die auf diesem Boden ruhen muss`,
    'as-it-was-loses': (v) => `wie zuvor fehlten dem Tisch ${portionen(v.servings)} mehr`,
    'soil-colder-than-planned': (v) =>
      `der Boden ist in der Woche der Saat um ${v.by_k} kälter als die geplanten ${v.planned_c}`,
    'soil-warmer-than-planned': (v) =>
      `der Boden ist in der Woche der Saat um ${v.by_k} wärmer als die geplanten ${v.planned_c}`,
    'air-colder-than-planned': (v) =>
      `in den ersten Wochen ist die Luft um ${v.by_k} kälter als die geplanten ${v.planned_c}`,
    'air-warmer-than-planned': (v) =>
      `in den ersten Wochen ist die Luft um ${v.by_k} wärmer als die geplanten ${v.planned_c}`,
    'ground-serves-more': () => 'etwas anderes bringt an dieser Stelle mehr',
    'plants-to-buy': (v) => `${pflanzenOf(v.plants)} zu kaufen, ausgepflanzt am ${v.set_out}`,
    'goes-out': (v) => `ausgepflanzt wird in der Woche vom ${v.week}`,
    'stand-brings': (v) =>
      `${horsteOf(v.clumps)} ${v.clumps === '1' ? 'bringt' : 'bringen'} etwa ${v.total_g}, geerntet in den Wochen ${v.days}`,
    'brings-nothing': () => 'bringt im Plan nichts',
    'missed-without': (v) => `ohne ihn fehlten dem Tisch ${portionen(v.servings)}`,
    'earlier-costs': (v) => `eine Woche früher kostete ${portionen(v.servings)}`,
    'earlier-brings': (v) =>
      `eine Woche früher brächte ${portionen(v.servings)} mehr, wenn der Platz dann frei wäre`,
    'one-more': (v) => `ein Horst mehr brächte ${portionen(v.servings)}`,
    'one-more-brings-nothing': () => 'ein Horst mehr brächte nichts Nennenswertes',
    'one-fewer': (v) => `einer weniger verlöre ${portionen(v.servings)}`,
    'earlier-is-past': () => 'eine Woche früher ist vorbei',
    'earlier-is-none': () => 'eine Woche früher lohnt hier keinen Versuch',
    'later-costs': (v) => `eine Woche später kostete ${portionen(v.servings)}`,
    'later-brings': (v) =>
      `eine Woche später brächte ${portionen(v.servings)} mehr, wenn der Platz dann frei wäre`,
    'later-is-none': () => 'eine Woche später lohnt hier keinen Versuch',
    'bears-part-shade': () => 'er verträgt Halbschatten und lässt anderen die Sonne',
    'full-sun-gives-more': () => 'er verträgt Halbschatten und bringt in der Sonne mehr',
    'first-on-its-ground': () => 'vor ihm steht nach dem Plan nichts auf seinem Boden',
    'needs-full-sun': () => 'er braucht volle Sonne',
    'less-in-part-shade': () =>
      'er will volle Sonne und bringt im Halbschatten weniger, was mitgerechnet ist',
    'less-in-shade': () => 'er bringt im Schatten weniger, was mitgerechnet ist',
    follows: (v) => `er folgt auf ${v.crop} (${v.stand})`,
    'follows-hungry': (v) => `er folgt auf ${v.crop} (${v.stand}), das viel zehrt, und braucht selbst wenig`,
    'follows-hungry-itself-hungry': (v) =>
      `er folgt auf ${v.crop} (${v.stand}), und beide zehren viel: dazwischen den Boden nähren`,
    succeeds: (v) => `er gelingt in ${v.success_share} der Jahre`,
    'metre-in-sun': (v) => `${v.length_m ?? 'ein Meter'} Beet in voller Sonne, ${v.width_m} breit`,
    'metre-in-part-shade': (v) => `${v.length_m ?? 'ein Meter'} Beet im Halbschatten, ${v.width_m} breit`,
    'metre-in-shade': (v) => `${v.length_m ?? 'ein Meter'} Beet im Schatten, ${v.width_m} breit`,
    'bed-unused': (v) => `${v.bed} bleibt leer: dort ist nichts geplant`,
    'bed-little-used': (v) => `${v.bed} ist nur zu ${v.used_share} von Fläche und Zeit genutzt`,
    'earlier-bought': (v) =>
      `${v.crop}, eine Woche vor dem ${v.set_out} gekauft und ausgepflanzt (dann im Weg: ${limits[v.cause ?? ''] ?? v.cause})`,
    'earlier-in-place': (v) =>
      `${v.crop}, eine Woche vor dem ${v.sow} ins Beet gesät (dann im Weg: ${limits[v.cause ?? ''] ?? v.cause})`,
    'earlier-in-tray': (v) =>
      `${v.crop}, eine Woche vor dem ${v.sow} in ${v.tray} gesät (dann im Weg: ${limits[v.cause ?? ''] ?? v.cause})`,
    'helps-want': (v) => `${v.weight_g} mehr ${v.want}`,
    'cells-of-tray': (v) => `${zellenOf(v.cells)} von ${v.tray}`,
    'cells-on-mat': (v) => `Platz für ${zellenOf(v.cells)} mehr auf der Matte von ${v.tray}`,
  },
  trial: {
    make: 'Nur probieren',
    whatIf: 'Wie wäre es mit',
    whatIfNote: 'Rechnet einen Plan aus und zeigt, was er ändern würde; nichts davon bleibt.',
    asItIs: 'dem Garten, wie er ist',
    longer: (bed, length) => `${bed}, ${length} länger`,
    oneMore: (tray) => `noch einer Schale wie ${tray}`,
    times: (wish, times) => `${times}-mal so viel ${wish}`,
    stop: 'Anhalten und das Beste bisher zeigen',
    done: 'Der Plan war nur ein Versuch. Der Garten ist, wie er war.',
    title: 'Nur probiert',
    lead: 'So würde der Garten geplant. Noch ist nichts davon übernommen.',
    leadOther:
      'So würde ein Garten mit dieser Änderung geplant. Um ihn zu haben, den Garten selbst ändern und dann planen.',
    keep: 'Übernehmen',
    leave: 'Lassen, wie es ist',
    table: 'Was auf den Tisch käme',
    tableNote: 'Im Mittel der Wetterjahre, über die Wochen eines Jahres von heute an.',
    now: 'Wie es ist',
    then: 'Mit diesem Plan',
  },
  plan: {
    title: 'Plan',
    lead: 'Rechnet aus, was, wie viel, wann und wo zu säen ist, damit auf den Tisch kommt, was gewünscht ist.',
    make: 'Ab heute planen',
    guard: 'Gegen schlechte Jahre absichern (langsamer)',
    longer: 'Dreimal so lange suchen',
    kept: 'Vom Wert der Wünsche bleibt',
    keptIn: (usual: string, most: string, unseen: string, bad: string) =>
      `${usual} im Mittel der Jahre; mehr als ${most} wären mit diesen Beeten und Saaten nicht zu holen. In anderen Wetterjahren ${unseen}, im schlechtesten Fünftel ${bad}`,
    keeps: 'Was gesät ist, bleibt. Was nur geplant war, wird neu geplant.',
    stop: 'Anhalten und das Beste bisher behalten',
    working: 'Es wird geplant …',
    progress: (seconds, gap) =>
      `${seconds} s; von dem, was diesem Plan entgeht, könnte ein besserer höchstens ${gap} retten`,
    progressNoBound: (seconds) => `${seconds} s`,
    layingOut: (seconds, share) =>
      `${seconds} s; die Saaten, unter denen gewählt wird, werden durchgerechnet, ${share} sind fertig`,
    stopped: 'Angehalten, bevor es einen Plan gab; was geplant war, bleibt.',
    done: 'Der neue Plan steht im Garten.',
    failed: 'Es wurde kein Plan gemacht:',
    none: 'Der Garten hat noch keinen Plan.',
    noneSince: 'Wie geplant wurde, ist hier nicht bekannt. Was schon geplant ist, steht im Jahresbild.',
    result: 'Was herauskam',
    gap: 'Vom Verlust könnte ein besserer Plan höchstens sparen',
    status: 'Beendet durch',
    statuses: {
      'gap reached': 'gut genug',
      'time limit': 'die Zeitgrenze',
      stopped: 'Anhalten',
      'rounds done': 'alle Runden versucht',
    },
    seconds: 'Dauer',
    stands: 'Neue Sätze',
    met: 'Was jeder Wunsch bekommt',
    want: 'Wunsch',
    wanted: 'Gewünscht',
    supplied: 'Kommt',
    share: 'Erfüllt',
    unmet: 'Wünsche, die nichts bekommen',
    unmetSince: (wish: string, reason: string) => `${wish}: ${reason}.`,
    unmetUntold: 'der Plan nennt keinen Grund',
    heldBack: (reason: string, wishes: string) => `Zu wenig, denn ${reason}: ${wishes}.`,
    notes: 'Was begrenzt',
    shortages: 'Wochen, in denen etwas fehlt',
    weeks: (n) => wochenOf(String(n)),
    when: 'Wann',
    missing: 'Es fehlen',
    chance: 'In',
    leftOut: (n, share) =>
      `In ${n === 1 ? 'einer weiteren Woche' : `${n} weiteren Wochen`} fehlt in weniger als ${share} der Jahre etwas.`,
    compared: 'Vorher und nachher',
    waiting: (n) => `Bleibt stehen, bis es gebraucht wird (${n})`,
    pulled: (stand, weeks) => `${stand}: geerntet ${weeks}`,
    beforePlan: 'Bisher geplant',
    afterPlan: 'Jetzt geplant',
    changesCount: (n, same) =>
      `${n} ${n === '1' ? 'Änderung' : 'Änderungen'}, ${same} ${same === '1' ? 'Aussaat' : 'Aussaaten'} wie bisher.`,
    changeKinds: { same: 'wie bisher', changed: 'geändert', new: 'neu', gone: 'entfällt' },
    noShortages: 'In keiner Woche fehlt etwas.',
    changesWhy: 'Was sich geändert hat, und warum',
    worths: 'Was mehr brächte',
    worthsNote: 'Jedes für sich, höchstens, in Portionen über den ganzen Plan.',
    worth: (servings: string, what: string) => `${portionen(servings)}: ${what}`,
  },
  table: {
    title: 'Tisch',
    lead: 'Was jede Woche in die Küche kommt, frisch oder aus dem Vorrat, gegen das, was sie möchte.',
    caption:
      'Die Mitte der Wetterjahre. Was in einer Woche zu viel ist, liegt für die nächste, solange es sich hält. Ton und Prozent: wie viel des Wunsches erfüllt ist.',
    inAll: (got, wanted, share) => `${got} von ${wanted}: ${share}`,
    partWeek: (days) => (days === 1 ? 'diese Woche, ihr letzter Tag' : `diese Woche, noch ${days} Tage`),
    unplanned: 'noch nicht geplant',
    beyondPlan:
      'Wochen, die „noch nicht geplant“ sind, liegen hinter dem Plan und hinter der letzten Ernte des Wunsches: sie sagen nichts über den Plan, und die Summen zählen sie nicht. Ein neuer Plan, näher daran, füllt sie.',
    fromStore: 'aus dem Vorrat',
    fromStoreMean: 'Aus dem Vorrat, Mittel der Jahre',
    shortIn: 'Zu wenig in',
    want: 'Gewünscht',
    week: 'Woche ab',
    perWeek: (amount) => `${amount} die Woche`,
    amounts: { servings: portionen, pieces: (n) => samenOf(n, true) },
    notWanted: 'nicht gewünscht',
    none: 'Es sind noch keine Wünsche aufgeschrieben: was der Haushalt essen will, und wie viel in der Woche.',
    scroll: 'Wochen, seitlich zu schieben',
  },
  site: {
    title: 'Ort',
    lead: 'Wie ein Jahr hier ist, und wie sehr die Jahre sich unterscheiden. Alle Bilder zeigen denselben Tag: mit dem Zeiger oder dem Regler darunter.',
    position: (lat, lon, height) => `${lat}, ${lon}, ${height} über dem Meer`,
    near: (station) => `bei ${station}`,
    byFar: (at, station, distance) => `${at} (nach ${station}, ${distance} entfernt)`,
    compass: { north: 'N', south: 'S', east: 'O', west: 'W' },
    day: 'Gezeigter Tag',
    dayColumn: 'Tag',
    asTable: 'Die Zahlen als Tabelle',
    source: 'Woher das Wetter kommt',
    fromRecord: (name, first, last, years) =>
      `Die Aufzeichnung ${name ? `„${name}“` : 'dieses Gartens'}, ${first} bis ${last}: ${years} ihrer Jahre stehen für das, was kommen kann.`,
    madeMore: (years) => `Die Aufzeichnung ist kurz; ${years} weitere Jahre wurden ihr ähnlich gemacht.`,
    fromNormals: (years) =>
      `Es gibt keine Aufzeichnung. ${years} Jahre wurden aus Monatsmitteln gemacht; Extreme sind darum weniger sicher, und diese Woche lässt sich nicht vergleichen.`,
    normalsAnd: (first, last, years) =>
      `Die Aufzeichnung (${first} bis ${last}) ist zu kurz, um für die Jahre zu stehen, die kommen; ${years} Jahre wurden aus Monatsmitteln gemacht.`,
    normalsOf: (name, distance) =>
      `Die Monatsmittel sind die von ${name}${distance && `, ${distance} vom Garten`}.`,
    stationUnknown: 'Ein anderer Ort ist nicht angegeben; sie gilt als das Wetter des Gartens.',
    stationNear: 'Gemessen wurde nahebei.',
    stationAt: (distance) => `Gemessen wurde ${distance} vom Garten entfernt.`,
    stationFar: (distance) =>
      `Die Messstelle ist ${distance} entfernt. Nächte, Frost und Regen können im Garten anders sein als gezeigt; ein Thermometer am Beet sagt in ein paar Wochen, um wie viel.`,
    stationHigher: (height) =>
      `Die Messstelle liegt ${height} höher als der Garten; im Garten ist es wohl wärmer als gezeigt.`,
    stationLower: (height) =>
      `Die Messstelle liegt ${height} tiefer als der Garten; im Garten ist es wohl kälter als gezeigt.`,
    ended: (day) =>
      `Die Aufzeichnung endet am ${day}; diese Woche lässt sich nicht mit anderen Jahren vergleichen.`,
    air: 'Warm und kalt',
    airCaption:
      'Band: acht von zehn Jahren. Linie: das mittlere Jahr. Senkrechte Striche: Tage dieses Jahres, vom kältesten zum wärmsten Wert.',
    airCaptionPlain: 'Band: acht von zehn Jahren. Linie: das mittlere Jahr.',
    nights: 'Tiefstwert der Nacht',
    daysWarm: 'Höchstwert des Tages',
    airWords: (day, night, nightRange, warm, warmRange) =>
      `${day}: nachts ${night} (${nightRange}), tags ${warm} (${warmRange})`,
    range: (low, high) => `${low} bis ${high}`,
    night: 'Nacht',
    nightSpan: 'Nacht, 8 von 10',
    warm: 'Tag',
    warmSpan: 'Tag, 8 von 10',
    lastDays: (from, to) => `Die letzte aufgezeichnete Woche, ${from} bis ${to}`,
    nightsWere: (value, share) => `Nächte ${value}: wärmer als in ${share} der Jahre`,
    daysWere: (value, share) => `Tage ${value}: wärmer als in ${share} der Jahre`,
    risk: 'Frost und Hitze',
    riskCaption:
      'Höhe und Ton eines Balkens: der Anteil der Jahre, in denen es in der Woche vorkommt. Rahmen darunter: wo der letzte und der erste Frost in acht von zehn Jahren liegen, die Mitte ist markiert.',
    nightAt: (limit) => `Eine Nacht mit ${limit} oder kälter`,
    dayAt: (limit) => `Ein Tag mit ${limit} oder heißer`,
    notSeen: 'in keinem der Jahre',
    frostDates: 'Wann der letzte und der erste Frost kommen',
    freezeLast: 'letzter im Frühjahr',
    freezeFirst: 'erster im Herbst',
    limit: 'Frost von',
    early: 'Früh (1 von 10)',
    middle: 'Mitte',
    late: 'Spät (9 von 10)',
    never: 'nie',
    always: 'selbst im Hochsommer',
    winters: (share, count) => `in ${share} von ${count} Wintern`,
    wintersMade: (share, count) =>
      `in ${share} von ${count} Wintern, die nur für diese Tage aus den Monatsmitteln gemacht sind`,
    neverWhy: 'Nie: so viele Winter bleiben ohne solchen Frost, dass es diesen Tag nicht gibt.',
    screen:
      'Gemessen in einer Wetterhütte in Kopfhöhe. Ein Blatt unter klarem Himmel ist ein paar Grad kälter.',
    hotDays: (limit, low, middle, high) =>
      `Tage mit ${limit} oder mehr im Jahr: ${middle}, zwischen ${low} und ${high}.`,
    riskWords: (frost, last, first) =>
      `${frost}: im mittleren Jahr zuletzt im Frühjahr ${last}, zuerst im Herbst ${first}.`,
    noFrostWords: (frost) => `${frost}: nicht im mittleren Jahr.`,
    week: 'Woche ab',
    sun: 'Tageslänge und Sonne',
    dayLength: 'Tageslänge',
    dayLengthWords: (day, hours) => `${day}: ${hours} von Sonnenaufgang bis Sonnenuntergang`,
    sunshine: 'Sonne auf dem Boden am Tag',
    cloudless: 'wolkenloser Himmel',
    sunUsual: 'mit den üblichen Wolken',
    sunWords: (day, middle, range) => `${day}: ${middle} (${range})`,
    sunCaption: 'Band: Wochenmittel in acht von zehn Jahren. Gestrichelt: käme keine Wolke.',
    span: '8 von 10',
    soil: 'Boden und Aussaat',
    crop: 'Kultur',
    depth: 'Tiefe',
    atDepth: (depth) => `${depth} tief`,
    soilName: (depth) => `Boden, ${depth} tief`,
    soilUsual: 'Boden, Wochenmittel',
    coldest: (temp) => `gesät ab ${temp}`,
    base: (temp) => `Stillstand unter ${temp}`,
    halfMark: 'in der Hälfte der Jahre',
    nineMark: 'in 9 von 10',
    soilWords: (day, middle, range) => `${day}: ${middle} (${range})`,
    warmFrom: (crop, temp, depth, id) =>
      `${crop} wird in Boden ab ${temp} ${isPlanted(id) ? 'gelegt' : 'gesät'}. In ${depth} Tiefe ist er so warm`,
    inHalf: 'in der Hälfte der Jahre',
    inNine: 'in neun von zehn Jahren',
    fromUntil: (from, until) => `${from} bis ${until}`,
    allYear: 'das ganze Jahr',
    notAtAll: 'nie',
    raised:
      'Diese Kultur wird meist vorgezogen: drinnen zählt das Zimmer oder die Matte, nicht dieser Boden.',
    unpublished: {
      'from memory': 'aus dem Gedächtnis',
      'common practice': 'gängige Praxis',
      chosen: 'gewählt',
    },
    figuresFrom: (coldest, base) => `Kältester Boden: ${coldest}. Keimung: ${base}.`,
    soilCaption:
      'Durchgezogene Linie: der kälteste Boden, in den gesät wird. Gepunktete Linie: darunter steht die Keimung still. Rahmen am Fuß: warm genug in der Hälfte der Jahre; gefüllt: in neun von zehn. Nackter, gegossener Lehm im offenen Boden, aus dem Wetter berechnet. Ein Hochbeet wird eher warm; Stroh hält kalt; Folie wärmt. Warmer Boden allein ist kein Saattermin: auch auf Frost achten.',
    allCrops: 'Alle Kulturen, in dieser Tiefe',
    coldestColumn: 'Gesät ab',
  },
  why: {
    ask: 'warum?',
    title: 'Warum diese Zahl',
    inputs: 'Woraus',
    formula: 'Wie',
    uncertainty: 'Wie sicher',
    source: 'Quelle',
    place: 'Ort',
    close: 'Schließen',
    alone: 'Dasselbe für sich gerechnet:',
    notWorked: 'Den Rechenweg kennt der Gartenrechner, der ihn nicht gab:',
    toSow: 'Zu säen',
    toBuy: 'Zu kaufen und auszupflanzen',
    readyTitle: (stand, day) => `Erntereif, ${stand}, ${day}`,
    weekTitle: (what, day) => `${what}, Woche vom ${day}`,
    plantTitle: (stand, day) => `Eine Pflanze, ${stand}, ${day}`,
    grown:
      'Der Satz wächst Tag für Tag durch jedes Wetterjahr: Wärme und Licht treiben ihn, genug Wasser und Nährstoffe sind vorausgesetzt, Eingetragenes gilt, wie es war.',
    light:
      'Pflanzen eines Horstes und benachbarte Horste teilen das Licht; höhere nehmen mehr als ihren Teil.',
    thermal: 'Wärme über der Basistemperatur wird Stunde für Stunde zusammengezählt, bis sie reicht.',
    grownEquation:
      'Wachstum eines Tages = min(Lichtnutzung × aufgefangenes Licht × f(Wärme), (e^(r·θ) − 1) × Blatt); aufgefangenes Licht = 1 − e^(−k × Blattfläche); θ ist die Wärme des Tages über der Basis.',
    thermalEquation:
      'θ = Σ max(0, T − Basis) ÷ 24 über die Stunden; die Hälfte ist da, wenn θ = θ₅₀ · e^(0,2·z), z der Saatgutpartie.',
    countedEquation: 'Anteil = Jahre, in denen es so ist ÷ alle Wetterjahre.',
    tableEquation: 'Auf den Tisch = min(gewünscht, Übriges × was sich eine Woche hält + Geerntetes).',
    shortageEquation:
      'Fehlendes = Mittel über die Jahre von max(0, gewünscht − auf den Tisch), über die Wochen summiert.',
    orderEquation:
      'Reihenfolge = Gewicht der Arbeit × (½ + ½ × Tage seit dem besten Tag ÷ Tage, bis es kostet).',
    readyCounted:
      'Gezählt: die Jahre, in denen der Ernteteil an dem Tag groß genug und nicht darüber hinaus ist.',
    successCounted: 'Gezählt: die Jahre mit einer lohnenden Ernte.',
    limit: (what) => `Was die anderen am häufigsten verdirbt: ${what}.`,
    lots: 'Saatgutpartien keimen verschieden schnell, um etwa ein Fünftel: gerechnet wird in jedem Jahr mit fünf, von langsam bis schnell.',
    middleDay: 'Gezeigt ist das mittlere Jahr: die Hälfte ist früher, die Hälfte später.',
    middlePlant: 'Gezeigt ist die Mitte aller Pflanzen über alle Jahre.',
    weekSummed:
      'Was in der Woche reif ist oder geerntet wird, über den Satz summiert; gezeigt ist das mittlere Jahr.',
    readySure:
      'Der Anteil der Jahre ist die Ungewissheit des kommenden Wetters. Der Fehler des Modells kommt dazu: siehe Quelle.',
    shareSure: 'Ein Anteil von Wetterjahren. Der Fehler des Modells kommt dazu: siehe Quelle.',
    between: (range) => `In acht von zehn Jahren: ${range}.`,
    overYears: (n) => `Gezählt über ${n} Wetterjahre dieses Ortes.`,
    thatIs: (years, all) => `Das sind ${years} von ${all} Wetterjahren.`,
    standSource:
      'Wachstum nach dem aufgefangenen Licht, nach LINTUL (Shibu und andere 2010, European Journal of Agronomy 32:255–271; Spitters 1990, Acta Horticulturae 267:349–368). Gleichungen, Zahlen und die Versuche, an denen sie gemessen sind: „The stand: growth, size and competition“ im Handbuch (docs/models/stand.md, englisch).',
    emergenceSource:
      'Wärme bis zum Auflaufen nach Harrington und Minges 1954, bei einigen Arten Bierhuizen und Wagenvoort 1974. Gleichungen, Zahlen und die Tage, an denen sie gemessen sind: „From seed to seedling“ im Handbuch (docs/models/emergence.md, englisch).',
    tableWalked:
      'In jedem Wetterjahr kommt, was reif wird, zu dem, was von den Wochen davor übrig ist; das hält sich, wo ein Haushalt es liegen lässt.',
    tableShared:
      'Dann nimmt sich jeder Wunsch seinen Teil, der wichtigste zuerst, jeder von dem, was zuerst verdirbt.',
    tableSource:
      'Die Sätze dieses Gartens in seinen Wetterjahren; Haltbarkeiten der Kulturdaten; „The plan“ im Handbuch (docs/models/plan.md, englisch).',
    cost: 'Kosten dieses Plans (Fehlendes und Verschwendetes, Arbeit, Änderungen)',
    bound: 'Kein Plan kann weniger kosten als',
    gap: (cost, bound, gap) => `(${cost} − ${bound}) ÷ ${cost} = ${gap}`,
    gapSure: 'Bewiesen für die Wetterjahre im Plan; andere Jahre können teurer oder billiger ausfallen.',
    planSource:
      'Das Modell mit jedem Zeichen: „The plan“ im Handbuch (docs/models/plan.md, englisch). Seine Preise hat dieses Projekt gewählt.',
    wish: (supplied, wanted, share) => `${supplied} ÷ ${wanted} = ${share}`,
    wishSure: 'Ein Mittel über die Wetterjahre im Plan: die Hälfte bringt weniger.',
    shortage: 'Für jede Woche das Mittel dessen, was über die Wetterjahre im Plan fehlt; dann die Summe.',
    shortWeek: (missing, share) => `${missing}, in ${share} der Jahre`,
    bestDay: 'Bester Tag',
    costsAfter: 'Kostet nach',
    taskOrder: 'Die Arbeit ist danach geordnet, was ihr Ausbleiben kosten würde und wie bald.',
    taskSource:
      'Die Vorschau des Satzes („The stand: growth, size and competition“ im Handbuch, docs/models/stand.md, englisch) und das Gartenbuch.',
    taskSure: 'So sicher wie der Tag, ab dem es kostet; siehe den Grund.',
    record: 'Wetter von',
    away: 'Entfernt',
    yearsName: 'Wetterjahre',
    climateSource:
      'FAO Irrigation and Drainage Paper 56 (Allen, Pereira, Raes und Smith 1998) und andere. Verfahren und die veröffentlichten Rechenbeispiele, die sie treffen: „Sun, evapotranspiration, hours of the day, soil temperature“ im Handbuch (docs/models/climate.md, englisch).',
    quantile: 'Die Werte des Tages aus allen Jahren der Größe nach; gezeigt ist der mittlere.',
    counted: 'Gezählt: die Jahre, in denen es eintritt.',
  },
  store: {
    title: 'Vorrat',
    lead: 'Was eingelagert wurde und noch da ist. Was zuerst verdirbt, steht vorn.',
    none: 'Nichts liegt im Vorrat. Lege hinein, was geerntet und nicht gleich gegessen wird; dann steht hier, wie lange es hält.',
    first: 'Zuerst essen',
    sums: 'Alles im Vorrat',
    crop: 'Gemüse',
    lots: 'Posten',
    weight: 'Gewicht',
    place: 'Liegt',
    stored: 'Eingelagert',
    places,
    put: 'In den Vorrat legen',
    putWhat: 'Von',
    putButton: 'Eintragen: eingelagert',
    moreThanPicked: (left) =>
      `Nach dem Gartenbuch sind davon nur ${left} geerntet und noch nicht eingelagert.`,
    nothingPicked:
      'Nach dem Gartenbuch ist davon nichts geerntet, was nicht eingelagert ist: auch die Ernte eintragen.',
    nothingGrows: 'In den Beeten steht nichts, was eingelagert werden könnte.',
    daysLeft: (days, day) => `noch ${days} ${days === 1 ? 'Tag' : 'Tage'}, bis ${day}`,
    lastDay: 'am besten heute essen',
    pastBy: (days) => `${days} ${days === 1 ? 'Tag' : 'Tage'} darüber: erst ansehen und riechen`,
    eatBy: (day) => `essen bis ${day}`,
    storedOn: (day) => `Eingelagert ${day}`,
    good: (share) => `etwa ${share} davon noch gut`,
    ate: 'Gegessen',
    threwAway: 'Weggeworfen',
    caution:
      'Diese Tage gelten der Güte, für ganze, frische, gesunde Ware. Was geschnitten, gekocht, eingekocht oder getrocknet ist, folgt nur geprüften amtlichen Anleitungen. Riecht oder sieht es falsch aus, gehört es weggeworfen.',
    whyTitle: (crop, place) => `Wie lange ${crop} hält: ${place}`,
    whyLife: (days, low, high) =>
      low && high
        ? `Dort hält es sich ${daysOf(days)}; veröffentlicht sind ${low} bis ${high}.`
        : `Dort hält es sich ${daysOf(days)}.`,
    whyChilled: (degrees) => `Unter ${degrees} schadet ihm die Kälte.`,
    whyGood: (age, days, share) =>
      `Am Ende seiner Haltbarkeit ist noch die Hälfte eines Postens gut: 2^(−${age} / ${days}) = ${share}.`,
    whyFormula: 'Der Tag des Einlagerns, dazu die Haltbarkeit des Gemüses an diesem Platz.',
    whyUncertain: (share) =>
      `Haltbarkeit heißt: etwa die Hälfte eines Postens ist noch gut; veröffentlichte Werte gehen auseinander wie gezeigt. Danach sind heute ${share} dieses Postens gut.`,
  },
  packets: {
    title: 'Saatgut',
    lead: 'Die Tüten im Haus, was der Plan daraus braucht, wann es hier gesät werden kann und wie voll die Platten werden.',
    shortTitle: 'Fehlt für den Plan',
    noNeeds: 'Der Plan braucht von heute an keine Samen.',
    noneShort: 'Für alles Geplante ist genug Saatgut da.',
    missing: (n, pieces) => `${samenOf(n, pieces)} ${n === '1' ? 'fehlt' : 'fehlen'}`,
    seeds: samenOf,
    firstSown: (day) => `zuerst gesät ${day}`,
    buy: (n, weight) => `${n} ${n === '1' ? 'frischen' : 'frische'} Samen kaufen (${weight})`,
    buyPieces: (n, weight, crop) => `${legewareOf(n, crop)} zum Legen kaufen (${weight})`,
    enough: (names) => `Genug im Haus für: ${names}.`,
    packetsTitle: 'Tüten',
    none: 'Es sind noch keine Tüten aufgeschrieben. Unten aufgeschrieben, stehen hier Alter und Keimfähigkeit.',
    packed: 'Abgepackt',
    stated: 'Auf der Tüte',
    notStated: 'keine Angabe; angenommen: eine gute frische Tüte',
    lies: 'Liegt bei',
    test: (day) => `Keimprobe ${day}`,
    cameUp: (up, sown) => `${up} von ${sown} gekeimt`,
    comesUp: (share) => `${share} sollten keimen`,
    whyTitle: (name) => `Keimfähigkeit jetzt, ${name}`,
    whyRange: (low, high) => `in 8 von 10 Fällen zwischen ${low} und ${high}`,
    verdicts: {
      good: 'Gut zu säen',
      'sow-thicker': 'Dichter säen',
      'test-first': 'Erst prüfen',
      renew: 'Neu kaufen',
    },
    left: (n, pieces) => `${samenOf(n, pieces)} übrig`,
    planned: (n) => `davon ${n} verplant`,
    nextYear: (year, share) => `${year} würden etwa ${share} keimen.`,
    whyNeedTitle: (name) => `Fehlendes Saatgut, ${name}`,
    whyNeed: (needed, covered, missing) => `${needed} gebraucht − ${covered} im Haus = ${missing} fehlen`,
    whyNeedSource:
      'Die Sätze des Plans, die Tüten und das Gartenbuch; gezählt nach „From seed to seedling“ im Handbuch (docs/models/emergence.md, englisch).',
    whyNeedUncertain: (share) => `Genug, damit in ${share} der Fälle die geplanten Horste aufgehen.`,
    windowsTitle: 'Wann hier gesät wird',
    windowsLead:
      'Tage, an denen Säen oder Auspflanzen eine lohnende Ernte bringt. Die Wörter an den Enden sagen, was das Fenster schließt; die Zahl ist der Anteil der Jahre, in denen es gelingt.',
    windowsComing: 'Die Fenster dieses Ortes werden gerechnet …',
    choose: 'Gezeigtes Gemüse',
    choices: { wanted: 'Hier gewünscht', open: 'Jetzt zu säen', all: 'Alles' },
    noWindows: 'Nichts, was hier gezeigt wird, hat ein Fenster.',
    methods: {
      'direct-sow': 'an Ort und Stelle gesät',
      'start-indoors': 'in Platten gesät',
      'set-out': 'ausgepflanzt',
    },
    success: 'Gelingt in',
    before: 'Früher hindert',
    after: 'Später hindert',
    tooSlow: 'zu langsames Wachstum',
    whyWindow:
      'Jeder Tag des Jahres wird in jedem Wetterjahr als Saattag versucht: Läuft es rechtzeitig auf, übersteht es die Fröste, wird es reif, bevor Wachstum oder Jahr enden, und bleibt es von Hitze und Schossen frei? Das Fenster hält die Tage, an denen mindestens die Hälfte der Jahre gelingt.',
    whyWindowSource:
      'An 510 Fenstern veröffentlichter Pflanzkalender gemessen: „Sowing windows“ im Handbuch (docs/models/windows.md, englisch).',
    whyWindowUncertain:
      'Der Anteil der Jahre im Wetter dieses Ortes. Veröffentlichte Kalender eines Ortes weichen um Wochen voneinander ab.',
    nurseryTitle: 'Die Platten, Woche für Woche',
    noTrays: 'Dieser Garten hat keine Anzuchtplatten.',
    nurseryName: (name, cells, most, week) =>
      `${name}: ${zellenOf(cells)}; höchstens ${most} belegt, in der Woche vom ${week}`,
    busiest: (most, week) => `höchstens ${most} belegt, Woche vom ${week}`,
    nurseryCaption:
      'Balken: belegte Zellen. Darüber gepunktet: wenn das langsamste Zehntel der Jahre sie noch nicht freigibt. Gestrichelt: die vorhandenen Zellen.',
    byWeek: 'Was in der Anzucht zu tun ist',
    laterWeeks: (n) => `${n} weitere ${n === '1' ? 'Woche' : 'Wochen'} später im Jahr`,
    over: (tray) => `${tray} ist überfüllt`,
    tasks: {
      sow: 'Säen',
      look: 'Nachsehen',
      'pot-on': 'Umtopfen',
      'harden-off': 'Abhärten',
      'set-out': 'Auspflanzen',
    },
  },
  judge: {
    title: 'Ziehen oder warten',
    options: 'Was Warten bringt',
    now: 'heute',
    inWeeks: (n) => (n === 1 ? 'in einer Woche' : `in ${n} Wochen`),
    pulled: 'Geerntet',
    plant: 'Eine Pflanze im Mittel',
    usable: 'Brauchbar im Ganzen',
    gain: 'Zuwachs, Mittel',
    large: 'Groß',
    loss: 'Verlust\u00adgefahr',
    worth: 'Wert',
    groundWorthMore: 'weniger als der Platz für das Nächste',
    ground: 'Verlust dessen, was auf den Platz wartet',
    kitchen: 'Der Küche fehlt diese Woche',
    best: '◂ am besten',
    order: 'Im Horst, von der schwersten an:',
    firstOut: '(diese zuerst)',
    largest: (now, rest) =>
      `Die größte aus jedem Horst zu ziehen gibt jetzt ${now}, und ${rest} mehr vom Rest in zwei Wochen.`,
    net: (usable, ground, net) =>
      `${usable} brauchbar − ${ground} Verlust dessen, was auf den Platz wartet, weniger die Gefahr = ${net}`,
    gainRange: (low, high) => `Der Zuwachs durch Warten liegt zwischen ${low} und ${high}.`,
    advices: {
      pick: 'Jetzt ernten',
      wait: 'Warten',
      pull: 'Jetzt ziehen',
      'pull the largest': 'Die größten ziehen, den Rest lassen',
      cut: 'Jetzt schneiden',
      look: 'Nachsehen: wahrscheinlich erfroren',
      clear: 'Räumen',
      over: 'Zu Ende',
      'nothing to judge yet': 'Noch nichts zu beurteilen',
    },
  },
  observe: {
    title: 'Sagen, was zu sehen ist',
    lead: 'Die Vorschau dieses Satzes geht dann von dem aus, was da steht.',
    ways: { eye: 'Nach Auge', felt: 'Gefühlt', weighed: 'Gewogen' },
    eyeLead: 'Die meisten Pflanzen sind',
    about: (grams) => `etwa ${grams}`,
    felt: 'Eine im Durchmesser',
    plantsUnit: (n) => (n === 1 ? 'Pflanze' : 'Pflanzen'),
    howMany: 'Wie viele gewogen wurden',
    together: 'Was sie zusammen wiegen',
    each: (grams) => `Das sind ${grams} je Pflanze.`,
    log: 'Eintragen: gemessen',
  },
  study: {
    title: 'Die Horste, im Maßstab',
    name: (n, setting) => `${horsteOf(n)} von oben, ${setting}.`,
    words: (day, middle, low, high, standing) =>
      `${day}: im Mittel ${middle} je Pflanze; 8 von 10 einzelnen zwischen ${low} und ${high}; ${stehen(standing)}`,
    none: (day) => `${day}: Es steht nichts`,
    standing: (day, standing) => `${day}: ${stehen(standing)}`,
    before: (day, standing, part) => `${day}: ${stehen(standing)}, noch ${part}`,
    noPart: {
      root: 'keine nennenswerte Rübe',
      leaf: 'kein Blatt zum Ernten',
      head: 'kein Kopf',
      stem: 'kein Stängel zum Schneiden',
      bulb: 'keine Zwiebel',
      pod: 'keine Hülsen',
      fruit: 'keine Frucht',
      tuber: 'keine Knollen',
      herb: 'kein Blatt zum Ernten',
      flower: 'kein Kopf',
    },
    caption: (n, all, setting) =>
      `${n !== all ? `${n} von ${all} Horsten` : n === '1' ? 'Der eine Horst' : `Alle ${all} Horste`}, ${setting}; ein fester Rahmen liegt am Beetrand.`,
    drawn: 'Jede Pflanze so breit, wie sie sein sollte; je kräftiger der Ton, desto schwerer.',
    drawnPicked:
      'Je breiter und je kräftiger der Ton, desto mehr Frucht hat eine Pflanze bis dahin gebracht, gepflückt oder nicht.',
    sizes: { too_small: 'zu klein', small: 'klein', large: 'groß', over_size: 'überständig' },
    tryOut: 'Erst am Bild versuchen',
    choices: {
      none: 'Alle lassen',
      thin: 'Auf eine je Horst vereinzeln',
      largest: 'Die größte aus jedem Horst nehmen',
      large: 'Alle großen nehmen',
      leaves: 'Ein Drittel des Laubs nehmen',
    },
    taken: (n, grams, low, high) =>
      `Das nimmt heute ${pflanzenOf(n)}, ${grams} (in 8 von 10 Jahren ${low} bis ${high}).`,
    takenLeaves: (grams, low, high) =>
      `Das nimmt heute ${grams} Laub (in 8 von 10 Jahren ${low} bis ${high}).`,
    logLeaves: (grams) => `Getan: ${grams} Laub als geerntet eintragen`,
    takenOut: (n) => `Das nimmt heute ${pflanzenOf(n)} heraus.`,
    rest: (day, gain) => `Was bleibt, wiegt dafür bis ${day} ${gain}.`,
    working: 'Wird gerechnet …',
    log: (n) => `Getan: ${n} als herausgenommen eintragen`,
  },
  setup: {
    title: 'Der Garten',
    lead: 'Fünf Dinge, und der erste Plan ist da: wo er liegt, die Beete, die Platten, was ihr essen wollt, und dann das Planen. Alles lässt sich später ändern.',
    start: 'Einrichten',
    saved: 'Gespeichert.',
    notSaved: 'Nicht gespeichert:',
    done: 'fertig',
    placeUntold: 'Der Ort des Gartens ist noch nicht angegeben.',
    gardenUnits: 'Maße des Gartens, auch an der Befehlszeile',
    gardenName: 'Name des Gartens',
    place: 'Wo er liegt',
    placeIs: (name, lat, lon) => `${name} (${lat}, ${lon})`,
    find: 'Ort oder Wetterstation',
    noPlace: 'Kein eingebauter Ort heißt so. Gib die Lage an: der nächste leiht sein Klima.',
    byPosition: 'Oder nach der Lage',
    latitude: 'Grad Nord (Süd: minus)',
    longitude: 'Grad Ost (West: minus)',
    height: { metric: 'Meter über dem Meer', us: 'Fuß über dem Meer' },
    use: 'Diese Lage nehmen',
    useAllTheSame: 'Diese Lage nehmen und dieses Klima trotzdem',
    nearestIs: (station, distance) => `Die nächste eingebaute Station ist ${station}, ${distance} entfernt.`,
    farClimate:
      'Über eine solche Entfernung machen Küsten und Berge ein anderes Klima: besser ist eine eigene Wetterreihe, oder zwölf Monatsmittel.',
    otherClimate: 'Das ist ein anderes Klima: nimm eine eigene Wetterreihe, oder zwölf Monatsmittel.',
    ownRecord:
      'Eine Reihe wird in der Befehlszeile eingelesen: sowtide weather GARTEN add DATEI. Monatsmittel stehen in der Beschreibung eines Gartens.',
    otherMark: 'mit anderem Klima',
    climateOf: (station, distance) => `Sein Klima ist das von ${station}, ${distance} entfernt.`,
    climateOfRecord: 'Sein Klima ist das der Wetterreihe in der Gartendatei.',
    climate: (source) => `Quelle: ${source}`,
    beds: 'Die Beete',
    draw: {
      metric: 'Zeichne ein Beet: auf den Kästchen drücken und ziehen. Ein Kästchen ist ein halber Meter.',
      us: 'Zeichne ein Beet: auf den Kästchen drücken und ziehen. Ein Kästchen ist zwei Fuß.',
    },
    drawing: (length, width) => `${length} × ${width}`,
    addBed: 'Ein Beet dazu',
    bedName: (n) => `Beet ${n}`,
    name: 'Name',
    length: 'Länge',
    width: 'Breite',
    sun: 'Sonne',
    suns: { full: 'volle Sonne', partial: 'Halbschatten', shade: 'Schatten' },
    kind: 'Art',
    kinds: { raised: 'Hochbeet', ground: 'ebenerdig' },
    fed: 'Kompost oder Mist in diesem Jahr eingearbeitet',
    past: 'Was hier vorher wuchs',
    pastLead:
      'Wo eine Familie stand, kommt einige Jahre lang nichts aus ihr hin. Was der Garten selbst im Gartenbuch hat, muss hier nicht stehen.',
    pastNone: 'Es ist nichts aufgeschrieben.',
    pastFrom: 'Von, das Beet entlang',
    pastTo: 'Bis',
    family: 'Familie',
    year: 'Jahr',
    addPast: 'Dazuschreiben',
    pastName: (family, bed, year) => `${family}, ${bed}, ${year}`,
    poleEnd: { north: 'Welches Ende liegt im Norden', south: 'Welches Ende liegt im Süden' },
    poleEnds: { neither: 'keines: von Ost nach West', start: 'sein Anfang (0)', end: 'sein anderes Ende' },
    poleLead:
      'Wo ein Beet zum Pol hin liegt, kommt Hohes an dieses Ende und nimmt nichts die Sonne. Der Anfang ist, wo seine Länge zu zählen beginnt.',
    remove: 'Entfernen',
    trays: 'Die Platten',
    addTray: 'Eine Platte dazu',
    trayName: (n) => `Platte ${n}`,
    cells: 'Zellen',
    cellWidth: 'Breite einer Zelle',
    matCells: 'Zellen zugleich auf der Matte',
    allCells: 'alle',
    offMat: 'Neben der Matte, nach dem Auflaufen',
    staysOnMat: 'so warm wie darauf',
    warmth: 'Wärme der Erde',
    trayPlace: 'Steht',
    trayPlaces: {
      indoors: 'drinnen',
      heat_mat: 'auf der Heizmatte',
      cold_frame: 'im Frühbeet',
      outdoors: 'draußen',
    },
    noTrays:
      'Ohne Platten wird alles an Ort und Stelle gesät, oder es kommt als gekaufte Pflanzen, wo ein Wunsch das sagt.',
    wants: 'Was ihr essen wollt',
    wantsLead: 'Wählt, was dem Haushalt schmeckt, wie viel in der Woche und in welchen Monaten.',
    more: 'Mehr',
    variety: 'Sorte',
    anyVariety: 'beliebig',
    size: 'Größe',
    sizes: { large: 'ausgewachsen', small: 'klein und zart' },
    priority: 'Wenn es nicht für alles reicht',
    priorities: {
      little: 'kommt zuletzt',
      usual: 'wie die anderen',
      much: 'kommt vor den anderen',
      most: 'kommt zuerst',
    },
    priorityValue: (n) => `zählt ${n}-fach`,
    early: 'So früh, wie es geht',
    bought: 'Die Pflanzen werden gekauft',
    boughtLead:
      'Wo sie das Auspflanzen vertragen: der Plan sagt dann, wie viele wann zu kaufen sind, und verlangt weder Saatgut noch Anzuchtplatte. Zehn Pflanzen gelten für so teuer wie eine Tüte Samen.',
    kept: 'Soll am Ende im Lager liegen',
    coolStore: 'Wir haben einen Keller, eine Miete oder einen kühlen Dachboden zum Lagern',
    coolStoreLead:
      'Damit lässt der Plan Wurzeln, Kohl und dergleichen dort liegen, so lange sie sich am besten halten; sonst nur in Küche oder Kühlschrank.',
    people: 'Personen',
    eaten: (grams) => `im Mittel isst jeder ${grams} in der Woche`,
    scale: (from, to) => `Mengen von ${from} auf ${to} ${to === '1' ? 'Person' : 'Personen'} umrechnen`,
    propose: (n, people) =>
      `${n === '1' ? 'Das meistgegessene' : `Die ${n} meistgegessenen`} Gemüse aufnehmen, für ${people}`,
    eatenSource: (source) =>
      `Mittel der Vereinigten Staaten, frisch gekauft, vor dem Küchenabfall (${source}). Ein Anfang: ändere, was euer Tisch anders mag.`,
    perWeek: 'in der Woche',
    addWant: 'Dazu',
    crop: 'Gemüse',
    oneCrop: 'Ein Gemüse',
    oneOfMany: 'Irgendeins von einer Art',
    plan: 'Der erste Plan',
    needs: 'Bevor geplant werden kann:',
    missing: { place: 'wo der Garten liegt', beds: 'wenigstens ein Beet', wants: 'wenigstens ein Wunsch' },
    toSeason: 'Auf dem Jahresbild ansehen',
    edit: 'Den Garten ändern',
    from: 'Von',
    until: 'Bis Ende',
    save: 'Speichern',
    seed: 'Das Saatgut im Haus',
    seedLead: 'Tüten und Sorten werden auf der Seite Saatgut aufgeschrieben.',
  },
  seedBox: {
    title: 'Tüten und Sorten aufschreiben',
    packets: 'Tüten',
    lead: 'Was hier steht, darf der Plan säen, bevor er zum Kaufen auffordert.',
    addPacket: 'Eine Tüte dazu',
    packet: (name, year) => `${name}, abgepackt ${year}`,
    year: 'Abgepackt',
    seeds: 'Samen darin',
    stated: 'Aufgedruckte oder geprüfte Keimfähigkeit ist bekannt',
    germination: 'Keimfähigkeit',
    varieties: 'Sorten',
    noVarieties:
      'Es ist keine Sorte aufgeschrieben: Saatgut, Wünsche und Sätze heißen nach dem Gemüse allein.',
    varietyName: 'Name',
    newVariety: 'Name der neuen Sorte',
    colour: 'Farbe',
    notes: 'Notizen',
    addVariety: 'Eine Sorte dazu',
    none: 'keine genannt',
  },
  pair: {
    title: 'Dieses Gerät verbinden',
    lead: 'Im Heimnetz ist dieser Garten nur für verbundene Geräte da. Der Rechner, der ihn anbietet, zeigt einen Code; hier wird er einmal eingetippt.',
    code: 'Code',
    name: 'Wie das Gerät heißen soll',
    device: 'Ein Telefon',
    button: 'Verbinden',
    keep: 'Ist das Gerät verbunden, kommt die Seite als Lesezeichen auf den Startbildschirm (im Menü des Browsers: „Zum Startbildschirm“). Als App einrichten lassen Browser sie aus einem unverschlüsselten Heimnetz nicht; sie öffnet sich nur, solange der Gartenrechner erreichbar ist. Was auf einer offenen Seite eingetragen wird, bleibt bis dahin aufgehoben.',
    install:
      'Ist das Gerät verbunden, die Seite im Menü des Browsers als App einrichten („Installieren“ oder „Zum Startbildschirm“). Sie öffnet sich dann auch ohne den Gartenrechner, zeigt, was sie zuletzt gezeigt hat, und hebt auf, was eingetragen wird, bis er wieder erreichbar ist.',
  },
  problems: {
    codes: {
      'file-missing': 'Auf dem Gartenrechner fehlt eine Datei.',
      'file-unreadable': 'Eine Datei ließ sich auf dem Gartenrechner nicht lesen oder schreiben.',
      empty: 'Es steht nichts darin.',
      syntax: 'Das folgt nicht seinem Format.',
      'unknown-field': 'Diese Angabe kennt hier nichts.',
      'missing-field': 'Eine Angabe fehlt.',
      'wrong-type': 'Hier gehört eine andere Art von Wert hin.',
      'wrong-unit': 'Die Einheit ist unbekannt oder passt nicht.',
      'out-of-range': 'Der Wert liegt außerhalb dessen, was sein kann.',
      contradiction: 'Das widerspricht dem, was schon bekannt ist.',
      ambiguous: 'Das lässt sich auf zwei Arten lesen.',
      'not-found': 'Das gibt es hier nicht.',
      'already-exists': 'Das gibt es schon.',
      'too-large': 'Das ist größer als erlaubt.',
      'insufficient-data': 'Es ist zu wenig bekannt, um das auszurechnen.',
      'wrong-version': 'Das stammt von einem neueren Programm oder nicht von Sowtide.',
      storage: 'Die Gartendatei ließ sich nicht lesen oder schreiben.',
      infeasible: 'Nichts erfüllt alles, was verlangt ist.',
      cancelled: 'Es wurde angehalten.',
      usage: 'Das nimmt der Gartenrechner so nicht an.',
      internal: 'Im Programm ist etwas schiefgegangen.',
      offline: 'Der Gartenrechner wurde nicht erreicht.',
      'changed-elsewhere':
        'Es wurde inzwischen anderswo geändert. Hier steht es, wie es jetzt ist; ändere es noch einmal.',
    },
    fields: {
      code: 'Code',
      name: 'Name',
      latitude_deg: 'Grad Nord',
      longitude_deg: 'Grad Ost',
      elevation_m: 'Höhe',
      length_m: 'Länge',
      width_m: 'Breite',
      cells: 'Zellen',
      place: 'Platz',
      crop: 'Gemüse',
      variety: 'Sorte',
      stand: 'Satz',
      date: 'Tag',
      count: 'Anzahl',
      grams: 'Gewicht',
      litres: 'Wasser',
      diameter_mm: 'Durchmesser',
      target: 'Posten',
      from_m: 'Stelle im Beet',
      to_m: 'Ende im Beet',
      clumps: 'Wie viele',
      day: 'Tag',
      spacing_mm: 'Abstand',
      plants_per_clump: 'Pflanzen in einem Horst',
      bought: 'Gekauft',
      family: 'Familie',
      year: 'Jahr',
      sow: 'Saattag',
      bed: 'Beet',
      tray: 'Platte',
      people: 'Personen',
      amount_per_week: 'Menge in der Woche',
      from: 'Von',
      to: 'Bis',
      weather: 'Wetter',
      paper: 'Papier',
    },
    about: (field, what) => `${field}: ${what}`,
    sentences: {
      // of the log
      'stand {stand} is sown in place and cannot be set out on {day}':
        'Satz {stand} ist an Ort und Stelle gesät und kann nicht am {day} ausgepflanzt werden',
      'Leave the entry out, name the stand that was raised in a tray, or say in the text that the plants were "bought"':
        'Lass den Eintrag weg, nenne den Satz, der in einer Platte vorgezogen wurde, oder sag, dass die Pflanzen gekauft sind',
      'stand {stand} is of a crop that does not bear to be set out':
        'Satz {stand} ist von einem Gemüse, das kein Auspflanzen verträgt',
      'Sow it where it is to grow': 'Säe es dort, wo es wachsen soll',
      'stand {stand} was {deed} on {day} and cannot be {deed2} before, on {day2}':
        'Satz {stand} wurde am {day} {deed} und kann nicht schon vorher, am {day2}, {deed2} worden sein',
      'stand {stand} was {deed} on {day} and cannot be sown first on {day2}':
        'Satz {stand} wurde am {day} {deed} und kann nicht erst am {day2} gesät worden sein',
      'stand {stand} was {deed} on {day} and cannot be set out first on {day2}':
        'Satz {stand} wurde am {day} {deed} und kann nicht erst am {day2} ausgepflanzt worden sein',
      'Put the date right, or first correct the entry {id}':
        'Stelle den Tag richtig, oder nimm erst den Eintrag {id} zurück',
      'a plant of stand {stand} cannot be of {n} mm':
        'eine Pflanze von Satz {stand} kann nicht {n} mm messen',
      'a plant of stand {stand} cannot be of {n} g': 'eine Pflanze von Satz {stand} kann nicht {n} g wiegen',
      'Check the unit and the digits': 'Prüfe Einheit und Ziffern',
      'stand {stand} cannot have {n} plants on {day} from the {n2} seeds sown':
        'aus {n2} gesäten Samen können in Satz {stand} am {day} nicht {n} Pflanzen stehen',
      'stand {stand} cannot have {n} plants on {day} from the {n2} seeds of the plan':
        'aus den {n2} Samen des Plans können in Satz {stand} am {day} nicht {n} Pflanzen stehen',
      'stand {stand} cannot have {n} plants on {day} from the one seed sown':
        'aus einem gesäten Samen können in Satz {stand} am {day} nicht {n} Pflanzen stehen',
      'stand {stand} cannot have {n} plants on {day} from the one seed of the plan':
        'aus dem einen Samen des Plans können in Satz {stand} am {day} nicht {n} Pflanzen stehen',
      'stand {stand} cannot have given {n} plants in all from the one seed sown':
        'aus einem gesäten Samen kann Satz {stand} nicht im Ganzen {n} Pflanzen gegeben haben',
      'stand {stand} cannot have given {n} plants in all from the one seed of the plan':
        'aus dem einen Samen des Plans kann Satz {stand} nicht im Ganzen {n} Pflanzen gegeben haben',
      'stand {stand} cannot have given {n} plants in all from the {n2} seeds sown':
        'aus {n2} gesäten Samen kann Satz {stand} nicht im Ganzen {n} Pflanzen gegeben haben',
      'stand {stand} cannot have given {n} plants in all from the {n2} seeds of the plan':
        'aus den {n2} Samen des Plans kann Satz {stand} nicht im Ganzen {n} Pflanzen gegeben haben',
      'Put the count right, or first correct the sowing':
        'Stelle die Zahl richtig, oder berichtige erst die Saat',
      'Put the count right, or first log the sowing with its seeds':
        'Stelle die Zahl richtig, oder trage erst die Saat mit ihren Samen ein',
      'of the {n} counted in stand {stand} on {day}, {n2} were left on {day2}, and {n3} cannot be {deed}':
        'von den {n}, die am {day} in Satz {stand} gezählt wurden, waren am {day2} noch {n2} übrig; {n3} können nicht {deed} worden sein',
      'Put the count right, or first log how many plants stood there':
        'Stelle die Zahl richtig, oder trage erst ein, wie viele Pflanzen dort standen',
      'would bring back the entry {id}, but {rest}': 'brächte den Eintrag {id} zurück, aber {rest}',
      'stand {stand} has {n} entries already': 'Satz {stand} hat schon {n} Einträge',
      'Write what is done to it less often, or plan it as several stands':
        'Trage seltener ein, was mit ihm geschieht, oder plane ihn als mehrere Sätze',
      'stand {id} was {crop} when this was written, and is {crop2} now':
        'Satz {id} war {crop}, als das geschrieben wurde, und ist jetzt {crop2}',
      'The garden was planned anew since: write the entry again for the stand that is meant':
        'Der Garten wurde seither neu geplant: schreib den Eintrag noch einmal für den Satz, der gemeint ist',
      '{day} lies ahead of today, {day2}': 'der {day} liegt nach heute, dem {day2}',
      'Put the date right, or the clock': 'Stelle den Tag richtig, oder die Uhr',
      'is {n}, must be {n2} to {n3}': 'ist {n}, muss zwischen {n2} und {n3} liegen',
      'is {length}, must be {length2} to {length3}':
        'ist {length}, muss zwischen {length2} und {length3} liegen',
      'is {n}, must be a whole number': 'ist {n}, muss eine ganze Zahl sein',
      'is needed for "{deed}"': 'wird gebraucht, damit „{deed}“ gilt',
      'Give the number of plants': 'Gib die Zahl der Pflanzen an',
      'Give the weight in grams': 'Gib das Gewicht in Gramm an',
      'Name the stand it was done to': 'Nenne den Satz, mit dem es geschah',
      'there is no stand "{id}" in this garden': 'in diesem Garten gibt es keinen Satz {id}',
      'there is no stand "{id}"': 'es gibt keinen Satz {id}',
      'there is no stand {id} in this garden': 'in diesem Garten gibt es keinen Satz {id}',
      'Name one of its stands': 'Nenne einen seiner Sätze',
      '`sowtide outlook GARDEN` lists the stands': 'Die Liste unter dem Jahresbild nennt alle Sätze',
      'GET /api/outlook lists all stands': 'Die Liste unter dem Jahresbild nennt alle Sätze',
      'there is no bed "{id}" in this garden': 'in diesem Garten gibt es kein Beet {id}',
      'Name one of its beds, or the stand': 'Nenne eines seiner Beete, oder den Satz',
      'there is no lot "{id}" in store': 'im Vorrat gibt es keinen Posten {id}',
      'Name a lot that was stored before, or leave the target empty':
        'Nenne einen Posten, der eingelagert wurde, oder lass ihn weg',
      'the lot "{id}" was stored on {day} and cannot be {deed} on {day2}':
        'der Posten {id} wurde am {day} eingelagert und kann nicht am {day2} {deed} worden sein',
      'Put the date right, or name the lot that was meant':
        'Stelle den Tag richtig, oder nenne den Posten, der gemeint war',
      '{n} g would be taken of the lot "{id}", of which {n2} g were stored':
        'vom Posten {id} wären {n} g genommen, eingelagert waren {n2} g',
      'Put the weight right, or name the lot that was meant':
        'Stelle das Gewicht richtig, oder nenne den Posten, der gemeint war',
      'a lot "{id}" was stored before': 'ein Posten {id} wurde schon eingelagert',
      'Leave the target empty to name the lot by its entry':
        'Lass den Namen weg, dann heißt der Posten nach seinem Eintrag',
      'there is no packet "{id}" in this garden': 'in diesem Garten gibt es keine Tüte {id}',
      'Name one of its packets': 'Nenne eine seiner Tüten',
      'packet "{id}" is of {crop}, and stand {id2} is {crop2}':
        'Tüte {id} ist {crop}, und Satz {id2} ist {crop2}',
      "Name a packet of the stand's crop, or none": 'Nenne eine Tüte der Kultur des Satzes, oder keine',
      'there is no entry "{id}" to correct': 'es gibt keinen Eintrag {id}, der zurückzunehmen wäre',
      'Give the id of an entry that is in the log': 'Nenne einen Eintrag, der im Gartenbuch steht',
      'another entry has the id "{id}"': 'ein anderer Eintrag heißt schon {id}',
      'Give the entry an id of its own; to put right what is written, add a correction':
        'Gib dem Eintrag einen eigenen Namen; was schon dasteht, nimm zurück und schreib es neu',
      '{day} lies outside {n} to {n2}': 'der {day} liegt nicht zwischen {n} und {n2}',
      'is longer than {n} bytes': 'ist länger als {n} Bytes',
      'Write it shorter': 'Schreib es kürzer',
      'is not plain UTF-8 text': 'ist kein reiner UTF-8-Text',
      '"{id}" is not an id': '„{id}“ taugt nicht als Name',
      'Use 1 to 64 letters, digits, - and _': 'Nimm 1 bis 64 Buchstaben, Ziffern, - und _',
      // of moving a stand
      'there is no bed {id}': 'es gibt kein Beet {id}',
      '{length} to {length2} does not lie in {bed}, which is {length3} long':
        '{length} bis {length2} liegt nicht in {bed}, das {length3} lang ist',
      'Keep the stand inside its bed': 'Lass den Satz in seinem Beet',
      '{day} is past or too far ahead': 'der {day} ist vorbei oder zu weit weg',
      '{day} is too far ahead': 'der {day} ist zu weit weg',
      'Put it in for a day within two years': 'Leg den Satz für einen Tag binnen zweier Jahre an',
      'Sow today or later, within two years': 'Säe heute oder später, binnen zweier Jahre',
      'the day on which bought plants are set out must be told':
        'der Tag, an dem gekaufte Pflanzen ausgepflanzt werden, muss genannt sein',
      'Give the day, or move the stand to another': 'Nenne den Tag, oder schieb den Satz auf einen anderen',
      'Set it out today or later, within two years': 'Pflanze ihn heute oder später aus, binnen zweier Jahre',
      'it would be set out before it is sown': 'er würde vor der Saat ausgepflanzt',
      'Set it out after sowing, or leave the day open with null':
        'Pflanze nach der Saat aus, oder lass den Tag offen',
      'stand {id} has been sown, so it stays where and when it is':
        'Satz {id} ist gesät und bleibt, wo und wann er ist',
      'Only what is still to be done can be moved. Where its place was written down wrong, say that it is put right (put_right); a wrong day is corrected in the log':
        'Verschieben lässt sich nur, was noch zu tun ist. Ein falsch aufgeschriebener Platz wird auf der Seite des Satzes richtiggestellt, ein falscher Tag im Gartenbuch',
      'stand {id} would be where {ids} stands at that time': 'Satz {id} wäre, wo zu dieser Zeit {ids} steht',
      'Take another stretch or another time, or move the other first':
        'Nimm einen anderen Abschnitt oder eine andere Zeit, oder verschiebe erst den anderen',
      // of a stand put in by hand
      '{crop} does not bear to be set out': '{crop} verträgt kein Auspflanzen',
      '{crop} is not sown in place': '{crop} wird nicht an Ort und Stelle gesät',
      'Name the tray it is raised in, or say that the plants were bought':
        'Nenne die Platte, in der vorgezogen wird, oder sag, dass die Pflanzen gekauft sind',
      'there is no bed "{id}"': 'es gibt kein Beet {id}',
      'Name a bed of the garden by its id': 'Nenne ein Beet des Gartens',
      'Name a stand of the garden by its id': 'Nenne einen Satz des Gartens',
      '{others} stands there at that time': '{others} steht dort zu dieser Zeit',
      'Take another stretch, or leave from_m out for the first free one':
        'Nimm eine andere Stelle, oder lass sie offen: dann gilt die erste freie',
      '{n} at {length} take {length2} of {bed}, which is {length3} long':
        '{n} im Abstand von {length} brauchen {length2}; das Beet ({bed}) ist {length3} lang',
      'Take fewer, closer, or another bed': 'Nimm weniger, einen engeren Abstand oder ein anderes Beet',
      '{bed} is {length} wide, too narrow for plants {length2} apart':
        '{bed} ist {length} breit, zu schmal für Pflanzen im Abstand von {length2}',
      'Take a wider bed': 'Nimm ein breiteres Beet',
      'Take a longer or wider bed': 'Nimm ein längeres oder breiteres Beet',
      'stand {id} has more in the log than that it was put in: {deed} on {day} (entry {entry})':
        'von Satz {id} steht mehr im Gartenbuch, als dass er aufgenommen wurde: {deed} am {day} (Eintrag {entry})',
      'Take back every other entry of it first, or, where it really stood there, log it as discarded':
        'Nimm erst jeden anderen Eintrag zurück, oder trag ihn, wenn er wirklich dort stand, als weggeworfen ein',
      'stand {id} is to be sown on {day}, and no outlook reaches beyond {day2}':
        'Satz {id} soll am {day} gesät werden, und keine Vorschau reicht über den {day2} hinaus',
      'Put its day of sowing right, or take the stand out of the garden':
        'Stelle den Tag der Aussaat richtig, oder nimm den Satz aus dem Garten',
      '"{text}" names no place of storage': '„{text}“ nennt keinen Ort im Vorrat',
      'The places are kitchen, fridge and best; how long frozen food keeps is no figure of the crops, so log what goes into the freezer as eaten':
        'Die Orte sind Küche, Kühlschrank und der beste; wie lange sich Gefrorenes hält, ist von den Kulturen nicht bekannt: trag als gegessen ein, was in die Truhe kommt',
      'Begin the text with kitchen (or pantry, larder), fridge, or best (or cellar, clamp, cold room)':
        'Beginne den Text mit kitchen, fridge oder best',
      'Say how many plants, or clumps of several': 'Sag, wie viele Pflanzen oder Horste',
      'Give the distance from clump to clump': 'Gib den Abstand von Horst zu Horst an',
      'Say how many plants stand together': 'Sag, wie viele Pflanzen zusammenstehen',
      '{bed} has no {length} free for as long as they stand there':
        '{bed}: so lange sie dort stehen, sind keine {length} frei',
      'Take another bed or fewer, or first log what no longer stands there as discarded':
        'Nimm ein anderes Beet oder weniger, oder trag erst als weggeworfen ein, was dort nicht mehr steht',
      'Take another bed or fewer, or move what is planned there':
        'Nimm ein anderes Beet oder weniger, oder verschiebe, was dort geplant ist',
      // of setting the garden up
      'is {n}, not beyond from_m ({n2})': 'ist {n} und liegt nicht hinter dem Anfang ({n2})',
      'Give the stretch from its near end to its far end': 'Gib den Abschnitt vom Anfang zum Ende hin an',
      'is {n}, must be above 0 and at most {n2}': 'ist {n}, muss über 0 liegen und höchstens {n2} sein',
      'is {n}, but bed "{id}" is {n2} m long': 'ist {n}, aber das Beet {id} ist {n2} m lang',
      'End the stretch inside the bed': 'Lass den Abschnitt im Beet enden',
      'Did you mean {names}?': 'War {names} gemeint?',
      'is empty': 'ist leer',
      'is missing': 'fehlt',
      'must be a text': 'muss ein Text sein',
      'must be a number': 'muss eine Zahl sein',
      '"{text}" is not a number': '„{text}“ ist keine Zahl',
      'Give a number': 'Gib eine Zahl an',
      'Give a number within': 'Gib eine Zahl dazwischen an',
      'Give it without a fraction': 'Gib eine ganze Zahl an',
      'must be a whole number': 'muss eine ganze Zahl sein',
      'must be true or false': 'muss wahr oder falsch sein',
      'is not known here': 'ist hier nicht bekannt',
      'See docs/api for the form of the body': 'Die Form steht in docs/api',
      'See docs/api/events.schema.json for the form of an event':
        'Die Form eines Eintrags steht in docs/api/events.schema.json',
      'there is no such place on earth': 'einen solchen Ort gibt es auf der Erde nicht',
      'is needed where no built-in station is near':
        'muss angegeben sein, wo keine eingebaute Station nahe ist',
      'Give the height of the garden in metres above the sea':
        'Gib die Höhe des Gartens in Metern über dem Meer an',
      'the nearest built-in station is {name}, {n} km away: that is another climate':
        'die nächste eingebaute Station ist {name}, {n} km entfernt: das ist ein anderes Klima',
      'Take a weather record of your own, or twelve monthly normals; or say that this climate is to be taken all the same':
        'Nimm eine eigene Wetterreihe, oder zwölf Monatsmittel; oder sag, dass dieses Klima trotzdem genommen werden soll',
      "the garden's place is not told yet": 'der Ort des Gartens ist noch nicht angegeben',
      'Tell it on the page that `sowtide serve GARDEN` opens, or make the garden with --place':
        'Gib ihn beim Einrichten an',
      'Latitude lies between -90 and 90, longitude between -180 and 180':
        'Die Breite liegt zwischen −90 und 90, die Länge zwischen −180 und 180',
      "the garden's weather record was made {n} km from there":
        'das Wetter des Gartens wurde {n} km von dort aufgezeichnet',
      'Make a new garden for a place with another climate':
        'Lege für einen Ort mit anderem Klima einen neuen Garten an',
      'bed "{id}" is named in the log and cannot go':
        'das Beet {id} wird im Gartenbuch genannt und kann nicht wegfallen',
      'Keep the bed': 'Behalte das Beet',
      'there is no tray "{id}" in this garden': 'in diesem Garten gibt es keine Platte {id}',
      'there is no crop "{crop}"': 'es gibt kein Gemüse {crop}',
      'the garden was changed elsewhere since you read it':
        'der Garten wurde anderswo geändert, seit du ihn gelesen hast',
      'Read GET /api/setup again and make the change on that':
        'Lade die Seite neu und ändere dann noch einmal',
      'no built-in place is called "{name}"': 'kein eingebauter Ort heißt „{name}“',
      'Give its coordinates, LAT,LON or LAT,LON,ELEVATION_M, and the nearest built-in place serves; `sowtide places` lists them all; weather of your own is added with `sowtide weather GARDEN add FILE`':
        'Gib seine Koordinaten an; dann dient der nächste eingebaute Ort. `sowtide places` zählt alle auf. Eigenes Wetter kommt mit `sowtide weather GARDEN add FILE` dazu',
      '`sowtide windows PLACE` lists the crops that are known':
        '`sowtide windows PLACE` zählt die bekannten Gemüse auf',
      'Nearest in spelling: {places}. Or give LAT,LON for the nearest place; `sowtide places` lists them all':
        'Ähnlich geschrieben: {places}',
      '"{name}" could be {n} of the built-in places': '„{name}“ könnten {n} der eingebauten Orte sein',
      'Give one of: {places}': 'Nimm einen davon: {places}',
      'people must be a number from 0 to 1000': 'die Zahl der Personen muss zwischen 0 und 1000 liegen',
      'Ask for example /api/household?people=2': 'Frage zum Beispiel nach zweien',
      // of a plan and what it needs
      'a plan is being made already': 'ein Plan wird schon gemacht',
      'Wait for it, or stop it with DELETE /api/plan': 'Warte auf ihn, oder halte ihn an',
      'the garden has no weather yet': 'der Garten hat noch kein Wetter',
      'Import a record with `sowtide weather GARDEN add FILE`, or give twelve monthly normals in the garden description':
        'Lies eine Aufzeichnung ein mit `sowtide weather GARDEN add FILE`, oder gib in der Beschreibung des Gartens zwölf Monatsmittel an',
      '{day} lies before the sowing of stand {id} or too near the end of the weather':
        'der {day} liegt vor der Saat von Satz {id} oder zu nah am Ende des Wetters',
      'Judge on a day after sowing, with three weeks of weather ahead':
        'Beurteile an einem Tag nach der Saat, mit drei Wochen Wetter davor',
      // of devices and the server
      'too many codes were tried': 'zu viele Codes wurden versucht',
      'Wait a minute': 'Warte eine Minute',
      'that is not the code, or it has run out': 'das ist nicht der Code, oder er ist abgelaufen',
      'Ask for a new code at the machine that serves the garden':
        'Hole einen neuen Code an dem Rechner, auf dem der Garten läuft',
      'a code is given only on the machine that serves':
        'einen Code gibt nur der Rechner, auf dem der Garten läuft',
      'Open the garden there, and ask for a code': 'Öffne den Garten dort, und hole einen Code',
      'the garden is served on this machine only': 'der Garten ist nur auf diesem Rechner zu sehen',
      'Start it with: sowtide serve GARDEN --lan': 'Starte ihn mit: sowtide serve GARDEN --lan',
      'this device is not paired with the garden': 'dieses Gerät ist nicht mit dem Garten verbunden',
      'Open /pair and give the code that the terminal shows':
        'Öffne /pair und gib den Code an, den der Rechner zeigt',
      'there is no such device': 'ein solches Gerät gibt es nicht',
      'GET /api/devices lists them': 'Die Einstellungen nennen sie',
      'too much is asked at once': 'es wird zu viel auf einmal gefragt',
      'Try again shortly': 'Versuch es gleich noch einmal',
      'the body is larger than {n} bytes': 'was geschickt wurde, ist größer als {n} Bytes',
      'this server does not answer for that host': 'dieser Rechner antwortet nicht unter diesem Namen',
      'the request comes from another site': 'die Anfrage kommt von einer anderen Seite',
      "Open the garden's own page and try again there":
        'Öffne die Seite des Gartens selbst und versuch es dort noch einmal',
    },
  },
  limits,
  cautions: {
    'Sources disagree on moving beet: the root swells above the tap root, so a young plug moves well and an old one forks.':
      'Die Quellen sind uneins über das Verpflanzen: Die Rübe schwillt über der Pfahlwurzel, darum geht es mit jungen Ballen gut, und alte gabeln sich.',
    'Leaves are rich in oxalate.': 'Die Blätter sind reich an Oxalat.',
    'Dangerous to people with favism (G6PD deficiency).':
      'Gefährlich für Menschen mit Favismus (G6PD-Mangel).',
    'Set out with the root ball unbroken.': 'Mit unversehrtem Wurzelballen setzen.',
    'Raw beans hold a toxic lectin: cook them.': 'Rohe Bohnen enthalten ein giftiges Lektin: kochen.',
    'Sow in place: the tap root forks when it is checked or moved.':
      'Ins Beet säen: Die Pfahlwurzel gabelt sich, wenn sie gestört oder versetzt wird.',
    'Held cold, dry or too long it makes a button instead of a curd.':
      'Kalt, trocken oder zu lang gehalten, bildet er einen Knopf statt eines Kopfes.',
    'Moves badly once it has a root: young clumps only, or it bolts.':
      'Mit ausgebildeter Wurzel schlecht zu versetzen: nur junge Horste, sonst schosst er.',
    'A bitter fruit is toxic: spit it out and discard it.':
      'Eine bittere Frucht ist giftig: ausspucken und wegwerfen.',
    'Moves badly once it has a root: young clumps only.':
      'Mit ausgebildeter Wurzel schlecht zu versetzen: nur junge Horste.',
    'Leaves and unripe fruit hold alkaloids: not for eating raw.':
      'Blätter und unreife Früchte enthalten Alkaloide: nicht roh essen.',
    'Bolts when its roots are disturbed or days are longest.':
      'Schosst, wenn die Wurzeln gestört werden oder die Tage am längsten sind.',
    'Cloves are planted in place, in autumn where winters allow.':
      'Zehen werden ins Beet gesteckt, im Herbst, wo der Winter es erlaubt.',
    'Sow in place: the tap root forks when it is checked or moved. The sap of the leaves burns skin in sun.':
      'Ins Beet säen: Die Pfahlwurzel gabelt sich, wenn sie gestört oder versetzt wird. Der Saft der Blätter verbrennt die Haut in der Sonne.',
    'Seed tubers are planted in place; sprouted in light they come up sooner. Use certified seed.':
      'Pflanzkartoffeln kommen ins Beet; im Licht vorgekeimt laufen sie früher auf. Zertifiziertes Pflanzgut nehmen.',
    'Green or sprouted tubers, leaves and berries are toxic.':
      'Grüne oder gekeimte Knollen, Blätter und Beeren sind giftig.',
    'Sow in place: the tap root forks when it is checked, and the crop is over in a month.':
      'Ins Beet säen: Die Pfahlwurzel gabelt sich, wenn sie gestört wird, und nach einem Monat ist alles vorbei.',
    'Leaves are rich in oxalate, and in nitrate when grown dark or overfed.':
      'Die Blätter sind reich an Oxalat, dunkel gezogen oder überdüngt auch an Nitrat.',
    'Set out with the root ball unbroken, in a block so that it pollinates.':
      'Mit unversehrtem Wurzelballen setzen, im Block, damit er bestäubt wird.',
    'Leaves, stems and green fruit hold alkaloids: not for eating.':
      'Blätter, Stängel und grüne Früchte enthalten Alkaloide: nicht zum Essen.',
    'Sow in place: the tap root forks when it is checked; growers of small roots do move young clumps.':
      'Ins Beet säen: Die Pfahlwurzel gabelt sich, wenn sie gestört wird; für kleine Rüben werden junge Horste durchaus versetzt.',
  },
  handling: {
    arugula: 'Sofort kühlen, ungewaschen im Beutel in den Kühlschrank.',
    basil: 'Bei Zimmerwärme in Wasser stellen, nicht in den Kühlschrank.',
    beet: 'Laub abdrehen, nicht waschen, im gelochten Beutel bei etwa {2}.',
    'broad-bean': 'Jung ernten, sofort kühlen, erst kurz vor dem Kochen palen.',
    broccoli: 'Schneiden, solange die Knospen geschlossen sind, sofort kühlen.',
    'brussels-sprouts': 'Von unten her ernten; im Beutel in den Kühlschrank.',
    'bush-bean': 'Alle paar Tage ernten, im Beutel im wärmsten Teil des Kühlschranks.',
    cabbage: 'Mit ein paar Hüllblättern schneiden, kalt und feucht halten.',
    carrot:
      'Laub abschneiden, nicht waschen, im Beutel oder in feuchtem Sand, fern von Äpfeln (Ethylen macht sie bitter).',
    cauliflower: 'Mit einem Kranz Blätter schneiden, kalt und bedeckt halten.',
    celeriac: 'Blätter und feine Wurzeln abschneiden, kalt und feucht halten.',
    celery: 'Im Ganzen schneiden, im Beutel in den Kühlschrank.',
    chard: 'Sofort kühlen, ungewaschen im Beutel in den Kühlschrank.',
    cilantro: 'In Wasser stellen oder im Beutel in den Kühlschrank.',
    collards: 'Sofort kühlen, ungewaschen im Beutel in den Kühlschrank.',
    courgette: 'Alle zwei bis drei Tage ernten, nicht drücken, im wärmsten Teil des Kühlschranks.',
    cucumber: 'Eingeschlagen in einem kühlen Raum, oder einige Tage im wärmsten Teil des Kühlschranks.',
    dill: 'Im Beutel in den Kühlschrank.',
    eggplant: 'In einem kühlen Raum oder im wärmsten Teil des Kühlschranks.',
    endive: 'Sofort kühlen, ungewaschen im Beutel in den Kühlschrank.',
    fennel: 'Blätter kurz schneiden, im Beutel in den Kühlschrank.',
    garlic:
      'Zwei bis vier Wochen in trockener bewegter Luft trocknen, trocken halten. Knoblauch nie bei Zimmerwärme in Öl aufbewahren (Botulismus).',
    'hot-pepper': 'Trocken im Beutel im wärmsten Teil des Kühlschranks.',
    kale: 'Sofort kühlen, ungewaschen im Beutel in den Kühlschrank.',
    kohlrabi: 'Blätter abnehmen, im Beutel in den Kühlschrank.',
    leek: 'Wurzeln und Blattspitzen kürzen, im Beutel; oder in der Erde lassen.',
    lettuce: 'In der Kühle des Morgens schneiden, sofort kühlen, im Beutel in den Kühlschrank.',
    melon:
      'Ernten, wenn sie sich vom Stiel löst; Schale vor dem Schneiden waschen, Angeschnittenes kalt stellen.',
    'mustard-greens': 'Sofort kühlen, ungewaschen im Beutel in den Kühlschrank.',
    okra: 'Jeden zweiten Tag ernten; trocken im wärmsten Teil des Kühlschranks.',
    onion:
      'Zwei bis vier Wochen in warmer bewegter Luft trocknen, bis die Hälse trocken sind; kalt, trocken und luftig.',
    'pak-choi': 'Sofort kühlen, ungewaschen im Beutel in den Kühlschrank.',
    parsley: 'In Wasser stellen oder im Beutel in den Kühlschrank.',
    parsnip: 'In der Erde lassen und nach Bedarf graben; nach Frost süßer.',
    pea: 'Jung ernten, sofort kühlen, erst kurz vor dem Kochen palen.',
    'pole-bean': 'Alle paar Tage ernten, im Beutel im wärmsten Teil des Kühlschranks.',
    potato: 'Zwei Wochen dunkel bei {13|16} ruhen lassen, dann dunkel, kühl und luftig.',
    radish: 'Laub sofort abschneiden, im Beutel in den Kühlschrank.',
    rutabaga: 'Laub abschneiden, kalt und feucht halten.',
    scallion: 'Putzen, im Beutel in den Kühlschrank.',
    spinach: 'Sofort kühlen, trocken im Beutel in den Kühlschrank.',
    'sweet-corn': 'Sofort kühlen und bald essen: es geht stündlich Zucker verloren.',
    'sweet-pepper': 'Trocken im Beutel im wärmsten Teil des Kühlschranks.',
    'sweet-potato':
      'Eine Woche bei {27|30} und feuchter Luft nachreifen, bei {13|16}, nie in den Kühlschrank.',
    tomato: 'Bei Zimmerwärme, Stielansatz nach unten; vor der Reife nicht in den Kühlschrank.',
    turnip: 'Laub abschneiden, nicht waschen, im Beutel oder in feuchtem Sand.',
    'winter-squash':
      'Mit Stiel schneiden, zehn Tage warm nachreifen (Eichelkürbis nicht), trocken bei {10|13}.',
  },
  crops: {
    arugula: 'Rauke',
    basil: 'Basilikum',
    beet: 'Rote Bete',
    'broad-bean': 'Dicke Bohne',
    broccoli: 'Brokkoli',
    'brussels-sprouts': 'Rosenkohl',
    'bush-bean': 'Buschbohne',
    cabbage: 'Kopfkohl',
    carrot: 'Möhre',
    cauliflower: 'Blumenkohl',
    celeriac: 'Knollensellerie',
    celery: 'Stangensellerie',
    chard: 'Mangold',
    cilantro: 'Koriander',
    collards: 'Blattkohl',
    courgette: 'Zucchini',
    cucumber: 'Gurke',
    dill: 'Dill',
    eggplant: 'Aubergine',
    endive: 'Endivie',
    fennel: 'Knollenfenchel',
    garlic: 'Knoblauch',
    'hot-pepper': 'Chili',
    kale: 'Grünkohl',
    kohlrabi: 'Kohlrabi',
    leek: 'Lauch',
    lettuce: 'Salat',
    melon: 'Melone',
    'mustard-greens': 'Blattsenf',
    okra: 'Okra',
    onion: 'Zwiebel',
    'pak-choi': 'Pak Choi',
    parsley: 'Petersilie',
    parsnip: 'Pastinake',
    pea: 'Erbse',
    'pole-bean': 'Stangenbohne',
    potato: 'Kartoffel',
    radish: 'Radieschen',
    rutabaga: 'Steckrübe',
    scallion: 'Lauchzwiebel',
    shallot: 'Schalotte',
    spinach: 'Spinat',
    strawberry: 'Erdbeere',
    'sweet-corn': 'Zuckermais',
    'sweet-pepper': 'Paprika',
    'sweet-potato': 'Süßkartoffel',
    tomato: 'Tomate',
    turnip: 'Mairübe',
    'winter-squash': 'Kürbis',
  },
  groups,
  anyOf: (group) => `irgendein ${groups[group] ?? group}`,
  families: {
    Amaranthaceae: 'Rote Bete, Mangold, Spinat',
    Amaryllidaceae: 'Zwiebel, Lauch, Knoblauch',
    Apiaceae: 'Möhre, Sellerie, Petersilie',
    Asteraceae: 'Salat, Endivie',
    Brassicaceae: 'Kohl, Radieschen, Rübchen',
    Convolvulaceae: 'Süßkartoffel',
    Cucurbitaceae: 'Gurke, Kürbis, Melone',
    Fabaceae: 'Erbsen und Bohnen',
    Lamiaceae: 'Basilikum',
    Malvaceae: 'Okra',
    Poaceae: 'Zuckermais',
    Solanaceae: 'Kartoffel, Tomate, Paprika',
  },
};

export const texts = de;

/** Every word on paper. */
export const paper: PaperTexts = {
  language: {
    name: 'Deutsch',
  },
  number: {
    decimal: ',',
    under: 'unter {amount}',
  },
  date: {
    months: 'Jan. Feb. März April Mai Juni Juli Aug. Sept. Okt. Nov. Dez.',
    full_months: 'Januar Februar März April Mai Juni Juli August September Oktober November Dezember',
    day: '{day}. {month}',
    day_us: '{day}. {month}',
    long: '{day}. {month} {year}',
    long_us: '{day}. {month} {year}',
    within_month: '{from}.–{to}. {month}',
    within_month_us: '{from}.–{to}. {month}',
    range: '{from} – {to}',
  },
  place: {
    stretch: '{from} – {to}',
    in_bed: '{bed}, {stretch}',
    in_place: 'an Ort und Stelle',
    bought: 'als Pflanzen gekauft',
    tray: 'Anzuchtplatte',
    one_cell: '1 Zelle',
    cells: '{n} Zellen',
    overfull: 'überfüllt',
    full_sun: 'volle Sonne',
    partial_sun: 'Halbschatten',
    shade: 'Schatten',
  },
  page: {
    number: '{page} von {total}',
    weather: 'Wetter: {source}',
    normals: 'aus Monatsmitteln gemacht',
    normals_of: 'aus Monatsmitteln gemacht ({source})',
    one_year: '1 Jahr von {place}, {from}',
    record: '{n} Jahre von {place}, {from} bis {to}',
    made: ', dazu {n} Jahre, die ein daran angepasster Generator gemacht hat',
    warmer: ', nach Wahl um {degrees} wärmer',
    colder: ', nach Wahl um {degrees} kälter',
    record_unused: '; die Aufzeichnung hat zu wenige ganze Jahre',
    as_of: 'Stand {day}',
  },
  title: {
    labels: 'Schilder',
    'sowing-sheet': 'Aussaatblatt',
    'bed-sheets': 'Beetblatt',
    season: 'Das Jahr',
    table: 'Was auf den Tisch kommt',
    handout: 'Wann gesät wird',
  },
  empty: {
    no_stands: 'Noch ist nichts geplant oder gesät. `sowtide plan GARDEN` macht einen Plan.',
    no_beds:
      'Dieser Garten hat noch keine Beete. Beschreibe sie in der TOML-Datei des Gartens ([[beds]]: Name, Länge, Breite) und plane dann.',
    no_wants:
      'Dieser Garten hat noch keine Wünsche. Schreibe in die TOML-Datei des Gartens, was auf den Tisch kommen soll ([[wants]]: eine Kultur, eine Menge je Woche, von wann bis wann).',
  },
  legend: {
    ready: 'Wahrscheinlichkeit, erntereif zu sein: je kräftiger, desto sicherer',
    fade: 'auslaufend: dann vielleicht schon fort',
    planned: 'gestrichelter Rand: geplant',
    sown: 'fester Rand: gesät',
    notches: 'erste Ernte in 1, 5 und 9 von 10 Jahren',
    free: 'Punkte: freier Platz',
  },
  label: {
    sow: 'zu säen {day}',
    sown: 'gesät {day}',
    up: 'läuft auf {days}; zu spät ab {late}',
    set_out: 'auspflanzen {days}',
    buy: 'kaufen und auspflanzen {days}',
    first_pick: 'erste Ernte {days}',
    last_pick: 'letzte Ernte {days}',
    none: 'Es gibt nichts zu beschriften: Kein Satz ist geplant oder wächst.',
  },
  sowing: {
    lead: 'Was vom {from} bis {to} zu säen ist. Aufgelaufen: In 8 von 10 Jahren ist in diesen Tagen die Hälfte zu sehen. Zu spät: Ist bis dahin nichts zu sehen, neu säen.',
    week: 'Woche ab {day}',
    day: 'bester Tag',
    what: 'was',
    amount: 'wie viel',
    where: 'wo',
    depth: 'Tiefe',
    warmth: 'Wärme',
    up: 'zur Hälfte da',
    late: 'zu spät ab',
    sown_on: 'gesät am',
    seen_on: 'da am',
    counted: 'gezählt',
    one_piece: '1 Stück',
    one_seed: '1 Same',
    seeds: '{n} Samen',
    one_cell: '1 Zelle, {seeds}',
    cells: '{n} Zellen, je {seeds}',
    one_place: '1 Stelle, {seeds}',
    places: '{n} Stellen alle {spacing}, je {seeds}',
    soil_from: 'Boden ≥ {temperature}',
    overdue: 'überfällig',
    never_up: 'läuft wohl nicht auf',
    none_in_a_week: 'In der kommenden Woche ist nichts zu säen.',
    none: 'In den kommenden {weeks} Wochen ist nichts zu säen.',
    next: 'Die nächste Saat ist am {day}.',
    missed:
      'Seit mehr als drei Wochen versäumte Saaten, hier weggelassen: {n}. Neu planen findet, was noch lohnt.',
  },
  caution: {
    heat_mat:
      'Elektrische Wärme nahe am Wasser: die Anleitung des Herstellers befolgen und einen Fehlerstrom-Schutzschalter benutzen.',
    of_crop: '{crop}: {text}',
  },
  season: {
    title: 'Das Jahr',
    lead: 'Die Zeit läuft nach rechts, die Länge jedes Beetes nach unten. Je kräftiger der Ton einer Fläche, desto sicherer ist sie an dem Tag erntereif.',
  },
  list: {
    title: 'Alle Sätze',
    lead: 'Alle Sätze nach Beet und Tag. Die Spannen umfassen 8 von 10 Jahren; lohnt: Anteil der Jahre mit lohnender Ernte.',
    stand: 'Satz',
    what: 'was',
    where: 'wo',
    plants: 'Pflanzen',
    raised: 'Anzucht',
    sow: 'säen',
    set_out: 'auspflanzen',
    first_pick: 'erste Ernte',
    last_pick: 'letzte Ernte',
    worth: 'lohnt',
    plants_at: '{n}, alle {spacing}',
    one_cell_in: '1 Zelle, {tray}',
    cells_in: '{n} Zellen, {tray}',
    sown_on: 'gesät {day}',
  },
  bed: {
    lead: '{bed}: {length} lang, {width} breit, {sun}.',
    past: '{year}: {family} auf {stretch}.',
    stretch: 'Abschnitt',
    notes: 'Notizen',
    drawn: 'davon {n} gezeichnet',
    from_above: 'Von oben am {day}, 1 : {scale}',
    through: 'Seine Länge durch das Jahr',
    done: 'getan {day}',
    empty: 'In diesem Beet ist nichts geplant und es wächst nichts.',
  },
  table: {
    lead: 'Woche für Woche vom {from} bis {to}: was gewünscht ist und was davon frisch oder aus dem Vorrat auf den Tisch kommt.',
    any: 'irgendein {group}',
    one_serving: '1 Portion',
    servings: '{n} Portionen',
    one_piece: '1 Stück',
    pieces: '{n} Stück',
    weekly: '{amount} je Woche, {from} – {to}',
    total: '{amount} im Vorrat am {day}',
    sum: '{reaches} von {wanted}: {share}',
    legend_wanted: 'gewünscht',
    legend_reaches: 'kommt im mittleren Jahr auf den Tisch',
    legend_range: '8 von 10 Jahren',
    legend_share: 'erfüllter Anteil des Wunsches im Monat',
  },
  handout: {
    lead: 'Tage, an denen Säen oder Auspflanzen in mindestens der Hälfte der Jahre eine lohnende Ernte gibt, in {place}.',
    weather: 'mittlere Tiefst- und Höchstwerte der Monate',
    never: 'in keiner Zeit lohnend in der Hälfte der Jahre',
    'start-indoors': 'drinnen säen',
    'direct-sow': 'ins Beet säen',
    'set-out': 'Jungpflanzen setzen',
    freeze: 'letzter und erster Frost: Hälfte der Jahre; 1 von 10',
    explain:
      'Je kräftiger der Ton, desto mehr Jahre gelingen: 50 % beim blassesten, alle beim kräftigsten. Berechnet aus dem Wetter des Ortes und Angaben zu jeder Kultur; das nächste Feld kann kälter oder wärmer sein, und Sorten unterscheiden sich. Wo Beratungsstelle oder Nachbarn anderer Ansicht sind, wissen sie es besser. Säe ein wenig früher und ein wenig später, schreibe auf, was geschah, und traue dem mehr als jedem Kalender.',
  },
  calendar: {
    name: '{garden}: Gartenarbeit',
    sow: '{what} säen',
    up: 'Nachsehen, ob {what} aufläuft',
    harden_off: '{what} abhärten',
    set_out: '{what} auspflanzen',
    buy: '{what} kaufen und auspflanzen',
    first_pick: 'Erste Ernte: {what}',
    last_pick: 'Letzte Ernte: {what}',
    days: 'In 8 von 10 Jahren: {days}',
    sow_text: '{amount}, {depth} tief, in: {where}.',
    plant_text: '{amount}, in: {where}.',
    up_text: 'Zur Hälfte aufgelaufen: {days}; ist nach dem {late} nichts zu sehen: neu säen.',
    up_text_planted: 'Zur Hälfte aufgelaufen: {days}; ist nach dem {late} nichts zu sehen: neu legen.',
    harden_one_day: 'Einen Tag lang tagsüber hinaus.',
    harden_text: '{n} Tage lang tagsüber hinaus, jeden Tag länger.',
    set_out_text: '{plants} in: {where}.',
    buy_text: 'Kaufen: {plants} in: {where}.',
    worth: 'Lohnt sich in {share} der Wetterjahre.',
  },
  groups,
};
