// Today's work as it is shown: what belongs together as one card, and what nobody has to do now apart from it.

import type { GardenEvent, Task } from '../api/types';
import { isoDay, parseDay, type Day } from './days';
import { kBoughtText } from './ownStand';

/** Work of one kind on one crop, all for one day: the most pressing first. */
export interface Work {
  key: string;
  tasks: [Task, ...Task[]];
}

export interface TodaysWork {
  now: Work[];
  /** Sowings that were missed by so long that a new plan must find them another day. */
  missed: Task[];
  /** What is only to be looked at, and shows nothing to do yet. */
  later: Task[];
}

export const taskKey = (task: Task) =>
  `${task.kind}/${task.stand}/${task.target ?? ''}/${task.place}/${task.due}`;

const reasonOf = (task: Task, key: string) => task.said?.reason.find((phrase) => phrase.key === key);
export const isMissed = (task: Task): boolean => reasonOf(task, 'missed') !== undefined;
const isLater = (task: Task) => reasonOf(task, 'nothing-yet') !== undefined;

/** By how many days the longest of these was missed. */
export const mostDaysMissed = (tasks: Task[]): number =>
  Math.max(0, ...tasks.map((task) => Number(reasonOf(task, 'missed')?.values.days ?? 0)));

/**
 * What is due by today is work of today, however long it is due. To buy plants and set them out is other work than to
 * set out one's own.
 */
function workKey(task: Task, today: Day): string {
  const day = parseDay(task.due) <= today ? isoDay(today) : task.due;
  return [task.kind, task.crop, task.log_event, task.log_text === kBoughtText, day].join('/');
}

/** The work in the order of its most pressing task. */
export function todaysWork(tasks: Task[], today: Day): TodaysWork {
  const works = new Map<string, Work>();
  const rest: Pick<TodaysWork, 'missed' | 'later'> = { missed: [], later: [] };
  for (const task of tasks) {
    const key = workKey(task, today);
    if (isMissed(task)) rest.missed.push(task);
    else if (isLater(task)) rest.later.push(task);
    else if (works.has(key)) works.get(key)!.tasks.push(task);
    else works.set(key, { key, tasks: [task] });
  }
  return { now: [...works.values()], ...rest };
}

/** How a note begins that work was done which leaves no other entry. */
export const tickText = (task: Task) => `${task.kind}: ${task.amount}`;

/** The kind of work that a note ticks off; empty where it is a note of another sort. */
export const tickedKind = ({ kind, text = '' }: Pick<GardenEvent, 'kind' | 'text'>): string =>
  kind === 'noted' ? (/^([a-z-]+): /.exec(text)?.[1] ?? '') : '';

/** Whether work that leaves no other entry was ticked off today, here or on another device. */
export const isTicked = (task: Task, standing: GardenEvent[], today: Day): boolean =>
  standing.some(
    (event) => event.date === isoDay(today) && event.stand === task.stand && tickedKind(event) === task.kind,
  );
