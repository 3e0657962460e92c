// The garden as the server last told it, and the entries on their way there.

import {
  ApiProblem,
  getEvents,
  getGarden,
  getOutlook,
  getSite,
  getToday,
  isOffline,
  keepMove,
  listen,
  syncEvents,
} from '../api/client';
import type {
  GardenAnswer,
  GardenEvent,
  GardenMoment,
  OutlookAnswer,
  Phrase,
  PlanProgress,
  Stand,
  Task,
  WorklistAnswer,
} from '../api/types';
import { isoDay, parseDay, type Day } from '../domain/days';
import { standingEntries } from '../domain/entries';
import {
  acknowledge,
  emptyOutbox,
  enqueue,
  forgetRefused,
  merge,
  readOutbox,
  setAside,
  type Outbox,
} from '../domain/outbox';
import type { Move } from '../domain/moves';
import { sameValue, shareItems } from '../domain/share';
import { isTicked, todaysWork, type TodaysWork } from '../domain/todaysWork';
import { deviceStore } from './deviceStore';
import { keepForLater } from './keep';
import { preferences } from './preferences.svelte';
import { keptTrouble, troubleOf } from './problems';

const kOutboxKey = 'sowtide.outbox';
const kRetryMs = 15_000;
/** A request stays well below the server's limit of size. */
const kMostSentAtOnce = 200;
/** The page that was opened comes first. */
const kKeepAfterMs = 3000;

/** True when trying the same again is of no use: not for want of a network, of pairing or of patience. */
const isRefusal = (status: number) => status >= 400 && status < 500 && ![401, 403, 408, 429].includes(status);

/** An entry that was written down though it looks odd. */
interface Doubt {
  event: GardenEvent;
  /** The program's own words. */
  english: string;
  said: Phrase[] | undefined;
}

class GardenState {
  garden = $state.raw<GardenAnswer | undefined>();
  outlook = $state.raw<OutlookAnswer | undefined>();
  worklist = $state.raw<WorklistAnswer | undefined>();
  /** The log as it was read last by a page that asked for it. */
  #sentEvents = $state.raw<GardenEvent[]>([]);
  outbox = $state.raw<Outbox>(readOutbox(deviceStore.read(kOutboxKey)));
  /** True while entries are kept by this page alone, since the device would not. */
  unkept = $state(false);
  doubts = $state.raw<Doubt[]>([]);
  offline = $state(false);
  problem = $state<ApiProblem | undefined>();
  /** What the server told last of its revision and day; what a page asks for by itself it asks again then. */
  moment = $state.raw<GardenMoment | undefined>();
  /** How the plan in work comes along, or how the last one ended. */
  planning = $state.raw<PlanProgress | undefined>();
  /** The stands as they were when the last plan was started from here: what a re-plan is set beside. */
  beforePlan = $state.raw<Stand[] | undefined>();
  /** Weather years behind every share of years; 0 while not asked for. */
  weatherYears = $state(0);
  /** What was written on this page and not answered to it yet; all there is, where the device would not keep it. */
  #mine: Outbox = emptyOutbox();
  /** Ids that the server has answered: where the device would not keep that, they are not sent again. */
  #answered: string[] = [];
  #sending = false;
  #atOnce = kMostSentAtOnce;
  #reading = false;
  #starting = true;
  #readAgain = false;
  #keepTimer: ReturnType<typeof setTimeout> | undefined;

  get today(): Day {
    return parseDay(this.outlook?.today ?? this.worklist?.today ?? '');
  }

  /** The entries that count, as far as the log was asked for. */
  get standing(): GardenEvent[] {
    return standingEntries(this.#sentEvents, this.outbox.waiting);
  }

  /** What is to be done today of what is not ticked off, and of that only what the page keeps. */
  workOf(isShown: (task: Task) => boolean): TodaysWork {
    const open = (task: Task) => task.log_event !== '' || !isTicked(task, this.standing, this.today);
    const tasks = (this.worklist?.tasks ?? []).filter((task) => open(task) && isShown(task));
    return todaysWork(tasks, this.today);
  }

  /** Reads the log, which tells what was ticked off elsewhere; off the network what is known stays. */
  async readLog(): Promise<void> {
    try {
      this.#sentEvents = await getEvents();
    } catch (problem) {
      if (!(problem instanceof ApiProblem)) throw problem;
    }
  }

  /** A garden made without its place: nothing can be said of it before that is told. */
  get placeUntold(): boolean {
    return this.problem?.code === 'missing-field' && this.problem.field === 'site';
  }

  /** Reads everything, and from then on whenever the garden changes, a day begins, or the page is looked at again. */
  start(): void {
    void this.read();
    listen(
      (moment) => {
        if (this.moment && !sameValue(this.moment, moment)) void this.read();
        this.moment = moment;
        void this.send();
      },
      (progress) => (this.planning = progress),
    );
    addEventListener('online', () => void this.send());
    deviceStore.onOthersWrite(kOutboxKey, () => this.#takeOthers());
    // A device that slept hears of nothing: a day may have begun meanwhile.
    document.addEventListener('visibilitychange', () => {
      if (!document.hidden) void this.read();
    });
    setInterval(() => {
      void this.#retry();
    }, kRetryMs);
    // The first answers came before the service worker took over: asked again, they are kept.
    navigator.serviceWorker?.addEventListener('controllerchange', () => void this.read());
  }

  async read(): Promise<void> {
    if (this.#reading) {
      this.#readAgain = true;
      return;
    }
    this.#reading = true;
    try {
      do {
        this.#readAgain = false;
        const answers = await Promise.all([getGarden(), getOutlook(), getToday()]);
        const [{ value: garden }, { value: outlook }, { value: worklist }] = answers;
        // An entry changes one stand of many: the rest stay the objects they were.
        if (!sameValue(this.garden, garden)) this.garden = garden;
        preferences.gardenUnits = garden.units;
        preferences.today = parseDay(outlook.today);
        const stands = shareItems(this.outlook?.stands ?? [], outlook.stands);
        if (!sameValue(this.outlook, { ...outlook, stands })) this.outlook = { ...outlook, stands };
        if (!sameValue(this.worklist, worklist)) this.worklist = worklist;
        this.offline = answers.some(({ kept }) => kept);
        this.problem = undefined;
      } while (this.#readAgain);
    } catch (problem) {
      this.offline = isOffline(problem);
      if (problem instanceof ApiProblem) this.problem = problem;
      else throw problem;
      if (this.placeUntold && this.#starting) location.hash = '#/setup';
    } finally {
      this.#starting = false;
      this.#reading = false;
    }
    if (!this.offline && !this.problem) this.#keepSoon();
  }

  /** What today's work touches is what is opened at the bed, and then whatever stands there. */
  #keepSoon(): void {
    clearTimeout(this.#keepTimer);
    this.#keepTimer = setTimeout(() => {
      const inGround = (this.outlook?.stands ?? [])
        .filter((stand) => stand.state !== 'planned' && stand.state !== 'finished')
        .map((stand) => stand.id);
      const worked = (this.worklist?.tasks ?? []).map((task) => task.stand).filter(Boolean);
      void keepForLater(
        [...worked, ...inGround],
        [...worked.filter((id) => inGround.includes(id)), ...inGround],
      );
    }, kKeepAfterMs);
  }

  async #retry(): Promise<void> {
    await this.send();
    if (this.offline) await this.read();
  }

  /** Keeps an entry on this device, then sends it as soon as the server is in reach. */
  async log(event: GardenEvent): Promise<void> {
    const crop = this.outlook?.stands.find((stand) => stand.id === event.stand)?.crop;
    this.#mine = enqueue(this.#mine, event, crop);
    await this.#change((box) => enqueue(box, event, crop));
    await this.send();
  }

  /** An entry counts no more, from today on; its id stays in the log. */
  takeBack(id: string): Promise<void> {
    return this.log({ id: newEventId(), date: isoDay(this.today), kind: 'corrected', target: id });
  }

  /** Sends what waits, in the order written; an entry that is refused is set aside and holds up none behind it. */
  async send(): Promise<void> {
    if (this.#sending) return;
    this.#sending = true;
    try {
      let sent = false;
      while (this.outbox.waiting.length > 0 && (await this.#sendSome())) sent = true;
      if (sent) await this.read();
    } finally {
      this.#sending = false;
    }
  }

  /** False when the server could not take them now; they wait on. */
  async #sendSome(): Promise<boolean> {
    const entries = this.outbox.waiting.slice(0, this.#atOnce).map((event) => {
      const crop = this.outbox.crops?.[event.id];
      return crop === undefined ? { event } : { event, crop };
    });
    try {
      const { results } = await syncEvents(entries);
      this.#noteSent(
        entries
          .map(({ event }) => event)
          .filter(({ id }) => results.some((each) => each.id === id && each.status === 'kept')),
      );
      await this.#change((box) =>
        results.reduce(
          (now, { id, status, error }) =>
            status === 'kept' ? acknowledge(now, [id]) : setAside(now, id, troubleOf(error)),
          box,
        ),
      );
      const answered = results.map(({ id }) => id);
      this.#answered.push(...answered);
      this.#mine = acknowledge(this.#mine, answered);
      for (const { id, cautions = [], cautions_said } of results) {
        const event = entries.find((each) => each.event.id === id)?.event;
        if (event?.kind === 'corrected') this.forgetDoubt(event.target ?? '');
        if (event && cautions.length > 0)
          this.doubts = [...this.doubts, { event, english: cautions.join('; '), said: cautions_said }];
      }
      this.offline = false;
      this.#atOnce = kMostSentAtOnce;
      return results.length > 0;
    } catch (problem) {
      if (!(problem instanceof ApiProblem)) throw problem;
      this.offline = isOffline(problem);
      if (!this.offline) this.problem = problem;
      return isRefusal(problem.status) && (await this.#goSingly(entries[0]?.event, problem));
    }
  }

  /** What waits no more counts until the log is read again, or what it ticks off or takes back would come and go. */
  #noteSent(events: GardenEvent[]): void {
    const known = new Set(this.#sentEvents.map(({ id }) => id));
    this.#sentEvents = [...this.#sentEvents, ...events.filter(({ id }) => !known.has(id))];
  }

  /** One unreadable entry must not hold up the rest: they go one by one, and the one that is refused alone is set aside. */
  async #goSingly(first: GardenEvent | undefined, problem: ApiProblem): Promise<boolean> {
    if (this.#atOnce === 1 && first) {
      await this.#change((box) => setAside(box, first.id, keptTrouble(problem)));
      this.#mine = acknowledge(this.#mine, [first.id]);
    }
    this.#atOnce = 1;
    return true;
  }

  /** Moves a planned stand for good; what went wrong is shown, and nothing is changed then. */
  async move(id: string, move: Move): Promise<boolean> {
    try {
      await keepMove(id, move);
      await this.read();
      return true;
    } catch (problem) {
      if (!(problem instanceof ApiProblem)) throw problem;
      this.offline = isOffline(problem);
      this.problem = problem;
      return false;
    }
  }

  /** Asks once how many weather years there are; a failure leaves it unsaid. */
  async countYears(): Promise<void> {
    if (this.weatherYears > 0) return;
    try {
      const { weather } = await getSite();
      this.weatherYears = weather.years + weather.made_years;
    } catch (problem) {
      if (!(problem instanceof ApiProblem)) throw problem;
    }
  }

  forgetDoubt(id: string): void {
    this.doubts = this.doubts.filter(({ event }) => event.id !== id);
  }

  forgetRefused(): void {
    const shown = this.outbox.refused.map(({ event }) => event.id);
    void this.#change((box) => forgetRefused(box, shown));
  }

  /** What waits and what was set aside, of all pages of this device. */
  #readOutbox(): Outbox {
    const kept = acknowledge(readOutbox(deviceStore.read(kOutboxKey)), this.#answered);
    this.#mine = acknowledge(
      this.#mine,
      kept.refused.map(({ event }) => event.id),
    );
    return merge(kept, this.#mine);
  }

  /** Another page wrote. What it sent of this page's is asked for once more: it was taken, or the two wrote at once. */
  #takeOthers(): void {
    const kept = readOutbox(deviceStore.read(kOutboxKey));
    this.outbox = this.#readOutbox();
    if (this.outbox.waiting.length > kept.waiting.length) void this.send();
  }

  /**
   * Changes the outbox as it is now: another page may have written there since this one looked. At once, so that nothing
   * is lost when the page goes; and once more while no other writes, for what was written by two at the same time.
   */
  #change(change: (outbox: Outbox) => Outbox): Promise<void> {
    const rewrite = () => {
      this.outbox = change(this.#readOutbox());
      this.unkept = !deviceStore.write(kOutboxKey, JSON.stringify(this.outbox));
      if (this.unkept) this.#mine = this.outbox;
    };
    rewrite();
    return deviceStore.alone(kOutboxKey, rewrite);
  }
}

export const gardenState = new GardenState();

/** A fresh id for an entry: 1 to 64 letters, digits, "-" or "_". */
export function newEventId(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(12));
  return `w-${Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('')}`;
}
