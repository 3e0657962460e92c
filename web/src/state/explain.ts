// Why the numbers of stands, table, plan and site are what they are, in the words of the page.

import type {
  EventOutlook,
  PlanAnswer,
  SiteAnswer,
  Stand,
  TableWeek,
  Task,
  Want,
  WeekOutlook,
} from '../api/types';
import { parseDay, type Day } from '../domain/days';
import { answersWant } from '../domain/supply';
import { beginsOn, eventDay, readyOn, toBeBought } from '../domain/season';
import type { ShortRun } from '../domain/shortages';
import {
  cropName,
  dayRange,
  distanceText,
  fullDay,
  stretchTexts,
  number,
  percent,
  shortDay,
  siteName,
  settingText,
  weightText,
} from './format';
import { labelledName, limitWords, standName, wishAmount } from './names';
import { preferences } from './preferences.svelte';
import { taskWords } from './said';
import type { Why } from './why.svelte';

const texts = () => preferences.texts;

function beginningName(stand: Stand): string {
  const t = texts();
  if (stand.comes_bought) return toBeBought(stand) ? t.why.toBuy : t.stand.factNames.set_out;
  return stand.state === 'planned' ? t.why.toSow : t.stand.factNames.sown;
}

/** What any forecast of a stand starts from. */
function standInputs(stand: Stand): Why['inputs'] {
  const t = texts();
  const inputs = [
    { name: t.stand.state, value: t.stand.states[stand.state] },
    {
      name: beginningName(stand),
      value: fullDay(beginsOn(stand)),
    },
    {
      name: t.stand.where,
      value: t.stand.place(stand.bed_name, ...stretchTexts(stand.from_m, stand.to_m)),
    },
    { name: t.stand.size, value: t.stand.plants(number(stand.clumps), settingText(stand)) },
  ];
  const facts = stand.facts;
  if (facts?.emerged)
    inputs.push({ name: t.stand.factNames.emerged, value: fullDay(parseDay(facts.emerged)) });
  if (facts?.counted_plants)
    inputs.push({ name: t.stand.factNames.counted_plants, value: number(facts.counted_plants) });
  if (facts?.measured_g)
    inputs.push({ name: t.stand.factNames.measured_g, value: weightText(facts.measured_g) });
  return inputs;
}

export function whyReady(stand: Stand, day: Day): Why {
  const t = texts();
  const share = readyOn(stand, day);
  return {
    title: t.why.readyTitle(standName(stand), fullDay(day)),
    value: t.panel.ready(percent(share)),
    inputs: standInputs(stand),
    formula: [t.why.grown, t.why.grownEquation, t.why.readyCounted, t.why.countedEquation],
    source: [t.why.standSource],
    uncertainty: t.why.readySure,
    share,
  };
}

export function whySuccess(stand: Stand): Why {
  const t = texts();
  return {
    title: `${t.stand.success}, ${standName(stand)}`,
    value: t.stand.years(percent(stand.success)),
    inputs: standInputs(stand),
    formula: [
      t.why.grown,
      t.why.grownEquation,
      t.why.successCounted,
      t.why.countedEquation,
      ...(stand.limits ? [t.why.limit(limitWords(stand.limits))] : []),
    ],
    source: [t.why.standSource],
    uncertainty: t.why.shareSure,
    share: stand.success,
  };
}

export function whyEvent(stand: Stand, name: EventOutlook['name']): Why {
  const t = texts();
  return {
    title: `${t.stand.eventNames[name]}, ${standName(stand)}`,
    value: fullDay(eventDay(stand, name, 'p50')),
    inputs: standInputs(stand),
    formula: [
      ...(name === 'emerge' || name === 'set-out' ? [t.why.thermal] : [t.why.grown, t.why.grownEquation]),
      ...(name === 'emerge' ? [t.why.thermalEquation, t.why.lots] : []),
      t.why.middleDay,
    ],
    source: [name === 'emerge' ? t.why.emergenceSource : t.why.standSource],
    uncertainty: t.why.between(dayRange(eventDay(stand, name, 'p10'), eventDay(stand, name, 'p90'))),
  };
}

export function whyWeek(stand: Stand, week: WeekOutlook): Why {
  const t = texts();
  return {
    title: t.why.weekTitle(standName(stand), fullDay(parseDay(week.week_start))),
    value: weightText(week.weight_g.p50),
    inputs: [...standInputs(stand), { name: t.stand.readyShare, value: percent(week.ready_probability) }],
    formula: [t.why.grown, t.why.grownEquation, t.why.weekSummed],
    source: [t.why.standSource],
    uncertainty: t.why.between(t.site.range(weightText(week.weight_g.p10), weightText(week.weight_g.p90))),
  };
}

export function whyPlant(stand: Stand, day: Day, middle: number, low: number, high: number): Why {
  const t = texts();
  return {
    title: t.why.plantTitle(standName(stand), fullDay(day)),
    value: weightText(middle),
    inputs: standInputs(stand),
    formula: [t.why.grown, t.why.grownEquation, t.why.light, t.why.middlePlant],
    source: [t.why.standSource],
    uncertainty: t.why.between(t.site.range(weightText(low), weightText(high))),
  };
}

/** A week of the table: what the stands bring in it, what comes out of store, and how sure that is. */
export function whyTable(name: string, want: Want, week: TableWeek, stands: Stand[]): Why {
  const t = texts();
  const amount = (value: number) => wishAmount(value, want.unit);
  const fresh = stands
    .filter((stand) => answersWant(stand, want))
    .map((stand) => ({
      stand,
      grams: stand.weeks.find((each) => each.week_start === week.week_start)?.weight_g.p50 ?? 0,
    }))
    .filter((part) => part.grams >= 1);
  return {
    title: t.why.weekTitle(name, fullDay(parseDay(week.week_start))),
    value: amount(week.reaches.p50),
    inputs: [
      { name: t.table.want, value: amount(week.wanted) },
      ...fresh.map((part) => ({ name: labelledName(part.stand), value: weightText(part.grams) })),
      { name: t.table.fromStoreMean, value: amount(week.mean_from_store) },
      { name: t.table.shortIn, value: percent(week.short_chance) },
    ],
    formula: [t.why.tableWalked, t.why.tableEquation, t.why.tableShared],
    source: [t.why.tableSource],
    uncertainty: t.why.between(t.site.range(amount(week.reaches.p10), amount(week.reaches.p90))),
  };
}

export function whyGap(plan: PlanAnswer): Why {
  const t = texts();
  return {
    title: t.plan.gap,
    value: percent(plan.gap),
    inputs: [
      { name: t.why.cost, value: number(plan.objective, 1) },
      { name: t.why.bound, value: number(plan.bound, 1) },
    ],
    formula: [t.why.gap(number(plan.objective, 1), number(plan.bound, 1), percent(plan.gap))],
    source: [t.why.planSource],
    uncertainty: t.why.gapSure,
  };
}

export function whyWish(name: string, want: PlanAnswer['wants'][number]): Why {
  const t = texts();
  const met = want.wanted_g > 0 ? Math.min(1, want.supplied_g / want.wanted_g) : 1;
  return {
    title: name,
    value: weightText(want.supplied_g),
    inputs: [{ name: t.plan.wanted, value: weightText(want.wanted_g) }],
    formula: [t.why.wish(weightText(want.supplied_g), weightText(want.wanted_g), percent(met))],
    source: [t.why.planSource],
    uncertainty: t.why.wishSure,
  };
}

export function whyShortage(name: string, run: ShortRun): Why {
  const t = texts();
  return {
    title: `${name}, ${dayRange(run.first, run.last)}`,
    value: weightText(run.grams),
    inputs: run.weeks.map((week) => ({
      name: `${t.table.week} ${shortDay(parseDay(week.week_start))}`,
      value: t.why.shortWeek(weightText(week.grams), percent(week.probability)),
    })),
    formula: [t.why.shortage, t.why.shortageEquation],
    source: [t.why.planSource],
    uncertainty: t.why.shareSure,
  };
}

export function whyTask(task: Task, stand: Stand | undefined): Why {
  const t = texts();
  return {
    title: `${t.today.kinds[task.kind] ?? task.kind}: ${cropName(task.crop, task.crop_name)}`,
    value: taskWords(task, 'amount').text || shortDay(parseDay(task.due)),
    inputs: [
      { name: t.why.bestDay, value: fullDay(parseDay(task.due)) },
      { name: t.why.costsAfter, value: fullDay(parseDay(task.latest)) },
      ...(stand ? standInputs(stand) : []),
    ],
    formula: [taskWords(task, 'reason').text, t.why.taskOrder, t.why.orderEquation],
    source: [t.why.taskSource],
    uncertainty: stand ? t.why.readySure : t.why.taskSure,
  };
}

/** A number of the year at this place: a quantile, or a share of the years. */
export function whySite(site: SiteAnswer, title: string, value: string, how: string, range: string): Why {
  const t = texts();
  const { weather } = site;
  return {
    title,
    value,
    inputs: [
      { name: t.why.place, value: siteName(site.site.name) },
      { name: t.why.record, value: weather.station?.name || weather.source },
      ...(weather.station ? [{ name: t.why.away, value: distanceText(weather.station.distance_km) }] : []),
      { name: t.why.yearsName, value: number(weather.years + weather.made_years) },
    ],
    formula: [how],
    source: [t.why.climateSource],
    uncertainty: range ? t.why.between(range) : t.why.shareSure,
  };
}
