// What a patch of the season sheet is called: in full to be heard, and shorter and shorter to be read in it.

import { shortName } from '../drawing/label';
import type { Patch } from '../drawing/sheetLayout';
import type { Day } from '../domain/days';
import { eventDay, readyOn, type Stay } from '../domain/season';
import { cropName, dayRange, number, percent, shortDay, stretchTexts } from './format';
import { preferences } from './preferences.svelte';

/** Crop, place, state, days there, first pick, and how likely it is ready today. */
export function patchName(stay: Stay, bandName: string, today: Day): string {
  const t = preferences.texts;
  const { stand, where } = stay;
  const pick = dayRange(eventDay(stand, 'first-pick', 'p10'), eventDay(stand, 'first-pick', 'p90'));
  const place =
    where === 'bed'
      ? t.stand.place(bandName, ...stretchTexts(stand.from_m, stand.to_m))
      : t.season.trayName(bandName, number(stand.cells ?? stand.clumps));
  const parts = [
    cropName(stand.crop, stand.crop_name),
    place,
    t.stand.states[stand.state],
    dayRange(stay.first, stay.last),
    `${t.stand.eventNames['first-pick']} ${pick}`,
    `${shortDay(today)}: ${t.panel.ready(percent(readyOn(stand, today)))}`,
  ];
  return parts.join(', ');
}

/** What could be written in a patch, the longest first: crop and how many, or the crop alone. */
export function patchWords(patch: Patch): string[] {
  const { stand, where } = patch.stay;
  const name = cropName(stand.crop, stand.crop_name);
  const short = shortName(name);
  const count = number(where === 'tray' ? (stand.cells ?? stand.clumps) : stand.clumps);
  return [`${name} · ${count}`, `${short} · ${count}`, short];
}
