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

export interface StandFacts {
  sown?: string | null;
  emerged?: string | null;
  counted_plants?: number | null;
  set_out?: string | null;
  first_picked?: string | null;
  picked_g?: number | null;
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
  method: string;
  tray: string;
  cells?: number;
  sow: string;
  set_out: string | null;
  state: StandProgress;
  events: EventOutlook[];
  weeks: WeekOutlook[];
  ready_daily: DailyProbability;
  success: number;
  limits: string;
  fan?: Fan;
  facts?: StandFacts;
}

export interface OutlookAnswer {
  garden: string;
  today: string;
  stands: Stand[];
}

export interface Task {
  kind: string;
  stand: string;
  crop: string;
  crop_name: string;
  variety: string;
  place: string;
  amount: string;
  reason: string;
  caution: string;
  due: string;
  latest: string;
  urgency: number;
  log_event: string;
  log_count: number;
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
  crop: string;
  group: string;
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
  stands: { id: string; crop: string }[];
  shortages: { want: string; week_start: string; grams: number; probability: number }[];
  wants: { want: string; wanted_g: number; supplied_g: number }[];
  notes: string[];
}

export interface PlanProgress {
  state: 'working' | 'done' | 'failed';
  seconds?: number | null;
  objective?: number | null;
  bound?: number | null;
  error?: ProblemAnswer['error'];
}
