// The JSON of the server, as described in docs/api/openapi.json. Dates are "YYYY-MM-DD".

export interface Quantiles {
  p10: number;
  p50: number;
  p90: number;
}

export interface EventOutlook {
  name: 'emerge' | 'set-out' | 'first-pick' | 'last-pick';
  p10: string | null;
  p50: string | null;
  p90: string | null;
  probability: number;
}

export interface WeekOutlook {
  week_start: string;
  weight_g: Quantiles;
  ready_probability: number;
}

export interface DailyProbability {
  first: string;
  probability: number[];
}

export interface Fan {
  first: string;
  p10: number[];
  p50: number[];
  p90: number[];
}

/** The plants of a stand that have reached a size on a day, and what they weigh; each size holds those that follow. */
export interface SizeReached {
  size: 'smallest' | 'small' | 'large' | 'over_size';
  /** Weight of one plant from which on it counts. */
  least_g: number;
  plants: Quantiles;
  grams: Quantiles;
}

export interface Standing {
  date: string;
  /** From the smallest on; none of crops picked over weeks, and of a stand that is over. */
  sizes: SizeReached[];
}

/** A plant's size as it was observed, as a weight: felt by the crop's law of diameter, by eye what the size stands for. */
export interface SizeObserved {
  date: string;
  weight_g: number;
  told: 'weighed' | 'felt' | 'by eye';
}

export interface StandFacts {
  sown?: string | null;
  emerged?: string | null;
  counted_plants?: number | null;
  set_out?: string | null;
  first_picked?: string | null;
  picked_g?: number | null;
  /** Leaves picked of a root crop. */
  greens_g?: number | null;
  plants_removed?: number | null;
  measured_on?: string | null;
  measured_g?: number | null;
  finished?: boolean;
}

export type StandProgress = 'planned' | 'sown' | 'up' | 'growing' | 'finished';

export interface Stand {
  id: string;
  crop: string;
  crop_name: string;
  variety: string;
  variety_name?: string;
  bed: string;
  bed_name: string;
  from_m: number;
  to_m: number;
  clumps: number;
  plants_per_clump: number;
  spacing_mm: number;
  /** Told when it was sown or set out; from row to row across the bed. */
  arrangement?: 'square' | 'offset' | 'rows';
  row_spacing_mm?: number;
  method: string;
  tray: string;
  cells?: number;
  sow: string;
  set_out: string | null;
  /** Of what waits in the ground: over how many weeks it is pulled, and from when; 0: each plant as it is ready. */
  pick_weeks?: number;
  pick_from?: string | null;
  state: StandProgress;
  /** By the log; null while it is only planned. Kept answers of an earlier version are without. */
  sown?: string | null;
  set_out_on?: string | null;
  /** Of a stand that is over, the day on which the last of it was taken. */
  over_on?: string | null;
  /** It came or is to come into its bed as plants that were bought, on a day that is decided. */
  comes_bought?: boolean;
  events: EventOutlook[];
  weeks: WeekOutlook[];
  ready_daily: DailyProbability;
  success: number;
  limits: string;
  /** Why nothing could be reckoned of it; `events`, `weeks` and `success` then tell only what the log does. */
  no_outlook?: ProblemAnswer['error'];
  /** A caution where its bed has less sun than the crop asks for; none where it has enough. */
  sun_said?: Phrase[];
  fan?: Fan;
  /** Sizes of a plant that were observed; kept answers of an earlier version are without. */
  observed?: SizeObserved[];
  /** Its plants by size on the day asked for; null before its sowing and beyond the weather. */
  standing?: Standing | null;
  facts?: StandFacts;
}

/** What tells over which weeks a stand is pulled; a plan alone does not know when it is ready. */
export type Pulled = Pick<Stand, 'pick_weeks' | 'pick_from'> & Partial<Pick<Stand, 'events' | 'facts'>>;

export interface OutlookAnswer {
  garden: string;
  today: string;
  stands: Stand[];
}

/** One phrase of the program as a key and its values; `docs/api/today.schema.json` lists them. */
export interface Phrase {
  key: string;
  values: Record<string, number | string>;
}

export interface Task {
  kind: string;
  stand: string;
  crop: string;
  crop_name: string;
  variety: string;
  /** The lot in store that it concerns, or empty. */
  target?: string;
  place: string;
  amount: string;
  reason: string;
  caution: string;
  /** How what goes into store is made ready, in the crop's own words; empty for other tasks. */
  handling?: string;
  /** The same four, phrase by phrase. */
  said?: Record<'place' | 'amount' | 'reason' | 'caution', Phrase[]>;
  due: string;
  latest: string;
  log_event: string;
  /** The text of that event: "bought" of plants to buy, "all" of a picking that leaves nothing, else empty. */
  log_text?: string;
  /** Place of a `stored` entry that follows; empty where nothing goes into store. */
  log_store?: '' | StorePlace;
  log_count: number;
  /** The weight to propose for that event; 0 where none is known. */
  log_grams: number;
  /** Of a sowing that should be up: seeds to sow once more should nothing show; 0 where that is of no use. */
  again_count: number;
}

export interface WorklistAnswer {
  today: string;
  tasks: Task[];
}

export interface Bed {
  id: string;
  name: string;
  length_m: number;
  width_m: number;
  sun: string;
  kind: string;
}

export interface Tray {
  id: string;
  name: string;
  cells: number;
  place: string;
  temp_c: number;
}

export interface Want {
  id: string;
  /** Its crop, or else its group. */
  crop: string;
  group: string;
  /** The crops that may meet it. Not in answers that were kept of earlier versions. */
  crops?: string[];
  variety: string;
  amount_per_week: number;
  unit: 'grams' | 'servings' | 'pieces';
  from: string;
  to: string;
}

export interface GardenAnswer {
  name: string;
  units: 'metric' | 'us';
  site: { name: string; latitude_deg: number; longitude_deg: number };
  beds: Bed[];
  trays: Tray[];
  wants: Want[];
  /** Packets of seed at hand. */
  packets: Required<SetupPacket>[];
  varieties: { id: string; crop: string; name: string }[];
  crops: { id: string; name: string; family: string }[];
}

export interface GardenEvent {
  id: string;
  date: string;
  kind: string;
  stand?: string;
  target?: string;
  count?: number;
  grams?: number;
  litres?: number;
  diameter_mm?: number;
  text?: string;
}

/** What became of entries sent together, each by itself. */
export interface SyncAnswer {
  results: {
    id: string;
    status: 'kept' | 'refused';
    error?: ProblemAnswer['error'];
    /** Of a new entry: what does not fit the log and the plan so far though it may be true. */
    cautions?: string[];
    cautions_said?: Phrase[];
  }[];
  revision: number;
}

export interface ProblemAnswer {
  error: {
    code: string;
    what: string;
    where?: { file?: string; line?: number; column?: number; field?: string };
    remedy?: string;
  };
}

export interface PlanAnswer {
  objective: number;
  bound: number;
  gap: number;
  seconds: number;
  status: string;
  /** The weeks of pulling are not in plans kept by older versions. */
  stands: (Pick<Stand, 'id' | 'crop' | 'sow' | 'bed'> & Pulled)[];
  shortages: { want: string; week_start: string; grams: number; probability: number }[];
  wants: { want: string; wanted_g: number; supplied_g: number }[];
  notes: string[];
  /** The notes, each as phrases; missing in plans kept by earlier versions, as are all of `…said`. */
  notes_said?: Phrase[][];
  /** By stand: why this date, this number, this bed. */
  reasons: Record<string, string>;
  reasons_said?: Record<string, Phrase[]>;
  /** What one more of it would bring at most. */
  /** Cost when nothing came; on weather years the plan has not seen; in the worst fifth of all. */
  wanted_value?: number | null;
  unseen_objective?: number | null;
  /** Not in plans kept by older versions. */
  bad_years_objective?: number | null;
  worths: { what: string; said?: Phrase[]; servings: number }[];
  /** Against the plan before: what, and why. */
  changes: string[];
  changes_said?: Phrase[][];
}

/** What of each wish reaches the table over the year ahead, in its unit, with a stand moved. */
export interface MovedTable {
  members: number;
  wants: { want: string; unit: Want['unit']; wanted: number; before: number; after: number }[];
}

/** A plan that is only tried: GET /api/plan/trial. */
export interface PlanTrial {
  /** Where it was tried for another garden than there is; it cannot be kept then. */
  changed: ('beds' | 'trays' | 'wants')[];
  plan: PlanAnswer;
  garden: GardenAnswer;
  outlook: OutlookAnswer;
  before: TableAnswer;
  after: TableAnswer;
}

/** Parts of the garden as they might be, whole lists. */
export type WhatIfParts = Partial<Pick<SetupAnswer, 'beds' | 'trays' | 'wants'>>;

export interface PlanProgress {
  state: 'working' | 'done' | 'tried' | 'stopped' | 'failed';
  /** Of one in work: it is not kept. */
  only_try?: boolean;
  seconds?: number | null;
  /** Share of the sowings to choose from that have been looked at. */
  laid_out?: number;
  objective?: number | null;
  bound?: number | null;
  error?: ProblemAnswer['error'];
}

/** Quantiles for each day of the year shown. */
export interface YearBand {
  p10: number[];
  p50: number[];
  p90: number[];
}

/** "MM-DD", or that it does not come that often, or that no day of the year is safe. */
export type RiskDay = string;

export interface RiskDays {
  p10: RiskDay;
  p50: RiskDay;
  p90: RiskDay;
}

export interface Freeze {
  threshold_c: number;
  winters: number;
  share_with_freeze: number;
  last: RiskDays;
  first: RiskDays;
}

export interface RiskWeek {
  from: string;
  to: string;
  frost: number;
  hard_frost: number;
  heat: number;
}

/** Stretch of the year, "MM-DD" each; `from` after `until` wraps the new year. */
export type WarmSpan = { from: string; until: string } | 'never' | 'always';

export interface CropWarmth {
  id: string;
  name: string;
  germination_base_c: number;
  germination_base_source: string;
  coldest_sow_c: number;
  coldest_sow_source: string;
  sown_outdoors: boolean;
  warm: { depth_mm: number; half: WarmSpan; nine_of_ten: WarmSpan }[];
}

export interface SiteAnswer {
  garden: string;
  today: string;
  site: { name: string; latitude_deg: number; longitude_deg: number; elevation_m: number };
  /** 1 January of the year shown. */
  first: string;
  days: number;
  weather: {
    source: string;
    years: number;
    made_years: number;
    first: string | null;
    last: string | null;
    station: {
      name: string;
      latitude_deg: number;
      longitude_deg: number;
      elevation_m: number;
      distance_km: number;
      height_difference_m: number;
      far: boolean;
      other_height: boolean;
    } | null;
    /** Whose built-in normals all years are made of. */
    normals_station: (LentClimate & { name: string }) | null;
  };
  air: { tmin_c: YearBand; tmax_c: YearBand };
  observed: { first: string; tmin_c: (number | null)[]; tmax_c: (number | null)[] } | null;
  last_days: {
    from: string;
    to: string;
    tmin_c: number;
    tmax_c: number;
    tmin_share_colder: number;
    tmax_share_colder: number;
  } | null;
  risk: {
    frost_c: number;
    hard_frost_c: number;
    heat_c: number;
    weeks: RiskWeek[];
    freezes: Freeze[];
    hot_days: Quantiles;
  };
  sun: { day_length_h: number[]; radiation_mj_m2: YearBand; clear_sky_mj_m2: number[] };
  soil: { setting: string; depths: { depth_mm: number; mean_c: YearBand }[] };
  crops: CropWarmth[];
}

export type StorePlace = 'kitchen' | 'fridge' | 'best';

export interface StoreLot {
  id: string;
  crop: string;
  crop_name: string;
  place: StorePlace;
  stored: string;
  grams: number;
  eat_by: string;
  age_days: number;
  good_share: number | null;
  life_days: Record<StorePlace, number> | null;
  handling: string;
}

export interface StoreAnswer {
  garden: string;
  today: string;
  lots: StoreLot[];
}

/** One quantity worked out: GET /api/figure/NAME. */
export interface FigureAnswer {
  name: string;
  inputs: Record<string, number | string | number[] | string[]>;
  result: Record<string, number | string | number[] | string[] | Record<string, string>>;
  working: string[];
  source: string[];
}

export interface SeedRange {
  mean: number;
  p10: number;
  p50: number;
  p90: number;
}

export interface Packet {
  id: string;
  crop: string;
  crop_name: string;
  variety: string;
  variety_name: string;
  packed_year: number;
  /** Tubers and cloves: what is counted as seeds are pieces. */
  pieces?: boolean;
  age_years: number;
  stated_pct: number | null;
  fresh_pct: number;
  expected_pct: number;
  ageing: 'viability-equation' | 'rule-of-thumb-life';
  life_years: number;
  tests: { date: string; sown: number; came_up: number }[];
  germination_pct: SeedRange;
  next_season: number;
  next_season_pct: number;
  verdict: 'good' | 'sow-thicker' | 'test-first' | 'renew';
  reason: string;
  /** The reason, phrase by phrase. */
  said?: Phrase[];
  seeds_sown: number;
  seeds_left: number;
  planned_seeds: number;
  working: string[];
  working_said: Phrase[];
  source: string[];
}

export interface SeedNeed {
  crop: string;
  crop_name: string;
  variety: string;
  variety_name: string;
  /** As of a packet. */
  pieces?: boolean;
  first_sowing: string;
  stands: {
    stand: string;
    sow: string;
    seeds: number;
    planned_seeds: number;
    packets: { packet: string; seeds: number }[];
    short_seeds: number;
  }[];
  seeds: number;
  covered_seeds: number;
  short_seeds: number;
  buy: { seeds: number; grams: number; germination_pct: number } | null;
}

export interface PacketsAnswer {
  garden: string;
  today: string;
  store: { temp_c: number; moisture_pct: number | null; note: string };
  service: number;
  packets: Packet[];
  needs: SeedNeed[];
}

export interface NurseryTask {
  date: string;
  latest: string;
  kind: 'sow' | 'look' | 'pot-on' | 'harden-off' | 'set-out';
  stand: string;
  crop_name: string;
  text: string;
  said?: Phrase[];
}

export interface NurseryWeek {
  week_start: string;
  use: {
    tray: string;
    tray_name: string;
    place: string;
    cells: number;
    cells_most: number;
    pots: number;
    light_mj_m2: number;
    mean_c: number;
  }[];
  over: string[];
  tasks: NurseryTask[];
}

export interface NurseryStand {
  stand: string;
  crop: string;
  crop_name: string;
  tray_name: string;
  place: string;
  cells: number;
  verdict: string;
  reason: string;
  sow: string;
  set_out: string | null;
  ready: {
    earliest: EventDays | null;
    best: EventDays | null;
    latest: EventDays | null;
    latest_reason: 'root-bound' | 'bolting';
  } | null;
  caution: string;
}

export interface EventDays {
  p10: string | null;
  p50: string | null;
  p90: string | null;
  probability: number;
}

export interface NurseryAnswer {
  garden: string;
  today: string;
  trays: { id: string; name: string; place: string; cells: number }[];
  weeks: NurseryWeek[];
  stands: NurseryStand[];
}

export interface SowingWindow {
  crop: string;
  crop_name?: string;
  method: 'direct-sow' | 'start-indoors' | 'set-out';
  from: string;
  to: string;
  success: number;
  /** What most often spoils a sowing just before and just after the window; absent where nothing does. */
  limits?: { before: string; after: string };
}

export interface WindowsAnswer {
  place: string;
  windows: SowingWindow[];
}

export type BedKind = 'raised' | 'ground';
export type PoleEnd = 'neither' | 'start' | 'end';
export type SunClass = 'full' | 'partial' | 'shade';
export type TrayPlace = 'indoors' | 'heat_mat' | 'cold_frame' | 'outdoors';

export interface SetupBed {
  id?: string;
  name: string;
  length_m: number;
  width_m: number;
  sun: SunClass;
  kind: BedKind;
  /** Compost or manure was dug in this year. */
  fed?: boolean;
  /** The end of the length towards the nearer pole: tall crops there shade nothing. */
  pole_end?: PoleEnd;
}

export interface SetupTray {
  id?: string;
  name: string;
  cells: number;
  cell_width_mm?: number;
  place: TrayPlace;
  temp_c?: number;
  /** On a heat mat: cells that have room there at once; 0: all. */
  mat_cells?: number;
  /** On a heat mat: how warm it is where seedlings stand once they are up; null: they stay on it. */
  room_c?: number | null;
}

export interface SetupWant {
  id?: string;
  crop?: string;
  group?: string;
  variety?: string;
  amount_per_week: number;
  unit: 'grams' | 'servings' | 'pieces';
  from: string;
  to: string;
  /** The price of a missing gram against that of other wants. */
  priority?: number;
  size?: 'small' | 'large';
  /** The first weeks that can be had count for more. */
  early?: boolean;
  /** To lie in store on the last day of the range, in the unit of the want. */
  total?: number;
  /** Its plants are bought, where the crop bears to be set out; of a group they may be. */
  bought?: boolean;
}

export interface SetupVariety {
  id?: string;
  crop: string;
  name: string;
  colour?: string;
  notes?: string;
}

export interface SetupPacket {
  id?: string;
  crop: string;
  /** Id of a variety, or empty. */
  variety?: string;
  packed_year: number;
  seeds: number;
  /** As printed or tested. */
  germination_pct: number | null;
}

/** What grew on a stretch of bed in a year that is over; plants of one family are kept off it for some years. */
export interface PastCrop {
  /** Id of a bed. */
  bed: string;
  from_m: number;
  to_m: number;
  family: string;
  year: number;
}

/** A stand that the grower puts in without a plan. What is left out is taken from the crop. */
export interface OwnStand {
  crop: string;
  bed: string;
  clumps: number;
  /** Sown, or set out where the plants were bought. */
  day: string;
  bought?: boolean;
  /** Id of the tray it is raised in. */
  tray?: string;
  variety?: string;
  from_m?: number;
  spacing_mm?: number;
  plants_per_clump?: number;
  size?: 'small' | 'large';
}

/** The stand that was made of it, with its place and the entry that was written. */
export interface MadeStand {
  stand: string;
  crop: string;
  bed: string;
  from_m: number;
  to_m: number;
  clumps: number;
  spacing_mm: number;
  method: 'direct-sow' | 'start-indoors';
  day: string;
  logged: 'sown' | 'set-out' | 'noted';
  /** Planned stands in whose room it stands; `by_hand`: a new plan leaves them where they are. */
  displaced: { stand: string; crop: string; by_hand: boolean }[];
  sun_said?: Phrase[];
}

/** What all answers depend on: the garden's number, which grows with every write, and the day at the server. */
export interface GardenMoment {
  revision: number;
  today: string;
}

export interface SetupAnswer {
  name: string;
  units: 'metric' | 'us';
  /** There is a cellar, a clamp or a cool loft. */
  cool_store: boolean;
  site: { name: string; latitude_deg: number; longitude_deg: number; elevation_m: number };
  normals: string;
  has_normals: boolean;
  /** The built-in station whose normals are in use; null for a record or normals of the garden's own. */
  lent_climate: (LentClimate & { station: string }) | null;
  weather_days: number;
  beds: SetupBed[];
  trays: SetupTray[];
  wants: SetupWant[];
  varieties: SetupVariety[];
  packets: SetupPacket[];
  past: PastCrop[];
  stands: number;
  events: number;
  missing: ('place' | 'beds' | 'wants')[];
}

/** How far off a station is whose monthly normals are taken; far from 100 km on, another climate from 500 km on. */
export interface LentClimate {
  distance_km: number;
  /** Station less garden. */
  height_difference_m: number;
  far: boolean;
  other: boolean;
}

/** The built-in place whose normals a spot would borrow. */
export interface NearestPlace {
  station: string;
  distance_km: number;
  elevation_difference_m: number;
  far: boolean;
  other: boolean;
  source: string;
  warning: string;
}

export interface BuiltInPlace {
  name: string;
  latitude_deg: number;
  longitude_deg: number;
  elevation_m: number;
  country: string;
  source: string;
}

export interface JudgeOption {
  weeks: number;
  date: string;
  plant_g: Quantiles;
  /** Null where the harvested part has no measure across. */
  diameter_mm: Quantiles | null;
  gain_g: Quantiles;
  mean_gain_g: number;
  usable_g: number;
  classes: SizeShares;
  loss_risk: number;
  loss_cause: string;
  ground_cost_g: number;
  net_g: number;
}

export interface SizeShares {
  too_small: number;
  small: number;
  large: number;
  over_size: number;
}

/** Weights between the sizes of what is harvested. */
export interface SizeWeights {
  smallest_g: number;
  small_g: number;
  large_g: number;
  over_size_g: number;
}

export interface JudgedStand {
  stand: string;
  crop: string;
  shape: string;
  /** Null for crops picked over weeks. */
  sizes: SizeWeights | null;
  advice: string;
  best_weeks: number;
  /** The row that nets most, where the advice is that one; a kitchen that lacks, a plan or a frost can weigh more. */
  marked_weeks: number | null;
  reasons: string[];
  /** The reasons, each as a phrase. */
  said?: Phrase[];
  /** Of what is pulled whole and keeps: how it is made ready to store, in the crop's own words. */
  handling?: string;
  options: JudgeOption[];
  clump: { rank: number; weight_g: Quantiles; size: string; first: boolean }[];
  pull_largest: { now_g: number; rest_gain_g: number };
  kitchen: { short_g: number; wants: string[]; plants: number };
  /** Of root crops whose leaves are eaten too: what their share gives today, and what it costs the roots. */
  greens: { now_g: number; root_cost_g: number; weeks: number; short_g: number } | null;
  next: { stand: string; from: string; loss_g_per_week: number } | null;
}

export interface JudgeAnswer {
  members: number;
  stands: JudgedStand[];
}

export interface PictureDay {
  date: string;
  plant_g: Quantiles;
  one_plant_g: Quantiles;
  standing_plants: number;
  classes: SizeShares;
  /** Of plant p of drawn clump c at p * clumps + c: up and not taken, in most weather years. */
  stands: boolean[];
  /** Laid out alike; 0 when it is gone, and while it has nothing yet of what is harvested. */
  weight_g: number[];
  /** The same across, where the harvested part has a measure; else null. */
  plant_diameter_mm: (number | null)[];
}

export interface StandPicture {
  stand: string;
  today: string;
  spacing_mm: number;
  part: 'root' | 'leaf' | 'head' | 'stem' | 'bulb' | 'pod' | 'fruit' | 'tuber' | 'herb' | 'flower';
  /** Of what is picked over weeks a weight is that of all the fruit a plant has made so far. */
  style: 'once' | 'repeat-cut' | 'picked';
  shape: string;
  sizes: SizeWeights;
  /** What may be taken of the leaves at once as greens; null where the tops are not eaten. */
  greens_share: number | null;
  observations: (SizeObserved & { diameter_mm: number | null })[];
  clumps: number;
  plants_per_clump: number;
  open_sides: number[];
  days: PictureDay[];
}

/** What taking plants out on a day would give, and what it would do to the rest. */
export interface StandTrial extends Omit<StandPicture, 'days'> {
  taken_g: Quantiles;
  taken_plants: number;
  greens_g: Quantiles;
  rest_gain_g: Quantiles[];
  before: PictureDay[];
  after: PictureDay[];
}

/** Which plants to take out of the picture. */
export interface Removal {
  date: string;
  largest_per_clump: number;
  above_g: number;
  keep_per_clump: number;
  leaf_share: number;
}

/** What people eat of a crop on average, with where it was published. */
export interface HouseholdAmount {
  crop: string;
  grams_per_week: number;
  source: string;
  note: string;
}

export interface HouseholdAnswer {
  people: number;
  amounts: HouseholdAmount[];
}

/** A week of a wish, in its unit. */
export interface TableWeek {
  week_start: string;
  wanted: number;
  /** Of the weather years, never above what is wanted. */
  reaches: Quantiles;
  mean_reaches: number;
  /** Of the mean, what was picked or stored before this week. */
  mean_from_store: number;
  /** Share of the years that miss a tenth or more of it. */
  short_chance: number;
}

export interface TableWant {
  want: string;
  unit: Want['unit'];
  wanted: number;
  mean_reaches: number;
  weeks: TableWeek[];
}

/** What reaches the table: GET /api/table. */
export interface TableAnswer {
  today: string;
  /** Weather years. */
  members: number;
  wants: TableWant[];
}
