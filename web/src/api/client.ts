// The only place that asks the server for anything.

import type { Move } from '../domain/moves';
import { OutlookReader } from './outlookReader';
import type {
  BuiltInPlace,
  FigureAnswer,
  GardenAnswer,
  GardenEvent,
  GardenMoment,
  HouseholdAnswer,
  JudgeAnswer,
  MadeStand,
  MovedTable,
  NearestPlace,
  NurseryAnswer,
  OutlookAnswer,
  OwnStand,
  PacketsAnswer,
  PlanAnswer,
  PlanProgress,
  PlanTrial,
  ProblemAnswer,
  Removal,
  SetupAnswer,
  SiteAnswer,
  StandPicture,
  StandTrial,
  StoreAnswer,
  SyncAnswer,
  TableAnswer,
  WhatIfParts,
  WindowsAnswer,
  WorklistAnswer,
} from './types';

/** What the server, or the network, said no to. */
export class ApiProblem extends Error {
  constructor(
    readonly status: number,
    readonly code: string,
    /** The program's own English words. */
    readonly what: string,
    readonly remedy: string,
    /** The dotted name of the field it lies in, where one is known. */
    readonly field = '',
  ) {
    super(what);
  }
}

/** The problem that a failed request is; anything else is a defect and goes on as it came. */
export function problemOf(failure: unknown): ApiProblem {
  if (failure instanceof ApiProblem) return failure;
  throw failure;
}

/** True when the server was not reached at all, so that trying again later may help. */
export function isOffline(problem: unknown): boolean {
  return problem instanceof ApiProblem && problem.status === 0;
}

/** True when another state is there than the one that a change was made on; nothing was written. */
export const isChangedElsewhere = (problem: unknown): boolean =>
  problem instanceof ApiProblem && problem.status === 412;

/** What an answer held, and the tag of that state. */
export interface Tagged<T> {
  value: T;
  tag: string;
  /** The service worker had kept it, since the server was out of reach. */
  kept: boolean;
}

async function askTagged<T>(
  path: string,
  init?: RequestInit,
  read: (text: string) => unknown = JSON.parse,
): Promise<Tagged<T>> {
  let response: Response;
  try {
    response = await fetch(path, { credentials: 'same-origin', cache: 'no-cache', ...init });
  } catch {
    throw new ApiProblem(0, 'offline', '', '');
  }
  const kept = response.headers.has('X-Sowtide-Kept');
  const tag = response.headers.get('ETag') ?? '';
  if (response.status === 204) return { value: null as T, tag, kept };
  const body = await bodyOf(response, read);
  // A good answer that cannot be read broke off on its way.
  if (response.ok && body === undefined) throw new ApiProblem(0, 'offline', '', '');
  if (response.ok) return { value: body as T, tag, kept };
  const problem = (body as ProblemAnswer | undefined)?.error;
  throw new ApiProblem(
    response.status,
    problem?.code ?? 'internal',
    problem?.what ?? response.statusText,
    problem?.remedy ?? '',
    problem?.where?.field,
  );
}

const ask = async <T>(path: string, init?: RequestInit, read?: (text: string) => unknown): Promise<T> =>
  (await askTagged<T>(path, init, read)).value;

/** What an answer holds; nothing where it is no JSON, or broke off. */
async function bodyOf(response: Response, read: (text: string) => unknown): Promise<unknown> {
  try {
    return read(await response.text());
  } catch (problem) {
    if (problem instanceof SyntaxError || problem instanceof TypeError) return undefined;
    throw problem;
  }
}

const sendJson = (method: string, body: unknown, headers: Record<string, string> = {}): RequestInit => ({
  method,
  headers: { 'Content-Type': 'application/json', ...headers },
  body: JSON.stringify(body),
});

export const getGarden = () => askTagged<GardenAnswer>('/api/garden');
const outlookReader = new OutlookReader();
export const getOutlook = () =>
  askTagged<OutlookAnswer>('/api/outlook', undefined, (text) => outlookReader.read(text));
export const getStand = (id: string) => ask<OutlookAnswer>(`/api/outlook/${encodeURIComponent(id)}`);
/** One stand with its plants by size on a day, "YYYY-MM-DD". */
export const getStandOn = (id: string, day: string) =>
  ask<OutlookAnswer>(`/api/outlook/${encodeURIComponent(id)}?on=${day}`);
export const getSite = () => ask<SiteAnswer>('/api/site');
export const getTable = () => ask<TableAnswer>('/api/table');
export const getStore = () => ask<StoreAnswer>('/api/store');
export const getPackets = () => ask<PacketsAnswer>('/api/packets');
export const getWindows = () => ask<WindowsAnswer>('/api/windows');
export const getNursery = () => ask<NurseryAnswer>('/api/nursery');
export const getEvents = () => ask<GardenEvent[]>('/api/events');
/** Pull or wait, for one stand. */
export const getJudgement = (id: string) => ask<JudgeAnswer>(`/api/judge/${encodeURIComponent(id)}`);
/** The clumps of a stand as they should be, every few days from today on. */
export const getPicture = (id: string, stepDays: number, clumps: number) =>
  ask<StandPicture>(`/api/stands/${encodeURIComponent(id)}/picture?step_days=${stepDays}&clumps=${clumps}`);
/** The same before and after taking plants out; nothing is written. */
export const tryRemoval = (id: string, removal: Removal, stepDays: number, clumps: number) => {
  const asked = new URLSearchParams({
    ...Object.fromEntries(Object.entries(removal).map(([key, value]) => [key, String(value)])),
    step_days: String(stepDays),
    clumps: String(clumps),
  });
  return ask<StandTrial>(`/api/stands/${encodeURIComponent(id)}/removal?${asked}`);
};

export const getSetup = () => askTagged<SetupAnswer>('/api/setup');
export const getPlaces = () => ask<{ places: BuiltInPlace[] }>('/api/places');
/** The station whose climate a spot would borrow; without its height when that is not known. */
export const getNearestPlace = (latitudeDeg: number, longitudeDeg: number, heightM: number | null) =>
  ask<NearestPlace>(
    `/api/places/nearest?lat=${latitudeDeg}&lon=${longitudeDeg}${heightM === null ? '' : `&elevation_m=${heightM}`}`,
  );
/** What people eat on average of the crops with a published amount, grams a week, most eaten first. */
export const getHousehold = (people: number) => ask<HouseholdAnswer>(`/api/household?people=${people}`);
/**
 * Replaces one part of the garden's description: "about", "place", "beds", "trays", "wants", "past" …. `tag` is that of the
 * state it was changed on; where another is there, nothing is written (`isChangedElsewhere`).
 */
export const putSetup = (part: string, value: unknown, tag: string) =>
  askTagged<SetupAnswer>(`/api/setup/${part}`, sendJson('PUT', value, tag ? { 'If-Match': tag } : {}));

/** Works out one quantity by itself. */
export const getFigure = (name: string, inputs: Record<string, string | number>) => {
  const asked = new URLSearchParams(Object.entries(inputs).map(([key, value]) => [key, String(value)]));
  return ask<FigureAnswer>(`/api/figure/${encodeURIComponent(name)}?${asked}`);
};
export const getToday = () => askTagged<WorklistAnswer>('/api/today');

/**
 * Writes entries, each by itself; one that is already in the log changes nothing, so a repeat is safe. With the crop that
 * was shown for its stand, an entry is refused when the stand has become another one meanwhile.
 */
export const syncEvents = (entries: { event: GardenEvent; crop?: string }[]) =>
  ask<SyncAnswer>('/api/events/sync', sendJson('POST', { entries }));

/** Pairs this device by the code that the serving machine shows; the session comes as a cookie. */
export const pairDevice = (code: string, name: string) =>
  ask<{ device: string }>('/api/pair', sendJson('POST', { code, name }));

/** The outlook of a stand as it would be after a move; nothing is written. */
export const tryMove = (id: string, move: Move) =>
  ask<OutlookAnswer>(`/api/stands/${encodeURIComponent(id)}/try`, sendJson('POST', move));
/** What the table would get with it, fresh or out of store. */
export const tryMoveAtTable = (id: string, move: Move) =>
  ask<MovedTable>(`/api/stands/${encodeURIComponent(id)}/try/table`, sendJson('POST', move));
export const keepMove = (id: string, move: Move) =>
  ask<OutlookAnswer>(`/api/stands/${encodeURIComponent(id)}`, sendJson('PUT', move));

/** Puts in a stand without a plan; up to today it is written down as done. */
export const addStand = (stand: OwnStand) => ask<MadeStand>('/api/stands', sendJson('POST', stand));
/** Takes back a stand that was put in by mistake: nothing of it counts. */
export const takeBackStand = (id: string) =>
  ask<{ stand: string; removed: true }>(`/api/stands/${encodeURIComponent(id)}`, { method: 'DELETE' });
/** Writes down that a stand is elsewhere than was told: what stands in the ground does not move, the record does. */
export const putRight = (id: string, place: { bed: string; from_m: number }) =>
  ask<OutlookAnswer>(`/api/stands/${encodeURIComponent(id)}`, sendJson('PUT', { ...place, put_right: true }));

/** The last plan kept in the garden file, or nothing. */
export const getPlan = () => ask<PlanAnswer | null>('/api/plan');
/** `badYears`: how much the worst fifth of the weather years counts beyond the mean; `effort`: times the usual search. */
export const startPlan = (badYears: number, effort: number) =>
  ask<{ state: string }>('/api/plan', sendJson('POST', { bad_years: badYears, effort }));
/** Plans without keeping it, also for a garden with other beds, trays or wishes. */
export const tryPlan = (badYears: number, effort: number, whatIf?: WhatIfParts) =>
  ask<{ state: string }>(
    '/api/plan',
    sendJson('POST', { bad_years: badYears, effort, only_try: true, what_if: whatIf }),
  );
/** The plan that was only tried last, or nothing. */
export const getTrial = () => ask<PlanTrial | null>('/api/plan/trial');
export const keepTrial = () => ask<{ state: string }>('/api/plan/trial', sendJson('POST', {}));
export const forgetTrial = () => ask<{ state: string }>('/api/plan/trial', { method: 'DELETE' });
export const stopPlan = () => ask<{ state: string }>('/api/plan', { method: 'DELETE' });

/**
 * Calls back at first, when the garden changed, from here or elsewhere, when a day began, and as a plan comes along.
 * Returns what ends it.
 */
export function listen(
  onMoment: (moment: GardenMoment) => void,
  onPlan: (progress: PlanProgress) => void,
): () => void {
  const source = new EventSource('/api/changes');
  source.addEventListener('revision', (message) =>
    onMoment(JSON.parse((message as MessageEvent<string>).data) as GardenMoment),
  );
  source.addEventListener('plan', (message) =>
    onPlan(JSON.parse((message as MessageEvent<string>).data) as PlanProgress),
  );
  return () => source.close();
}
