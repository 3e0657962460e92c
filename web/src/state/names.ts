// What a stand is called where people read it: by what grows and where, as one speaks of it. Its id stands on its label.

import type { Pulled, Stand, Want } from '../api/types';
import { causesSaid } from '../domain/limits';
import { pulledFrom, pulledWeeks } from '../domain/pulling';
import { cropName, number, shortDay, varietyName, weightText } from './format';
import { gardenState } from './garden.svelte';
import { preferences } from './preferences.svelte';

/** "Carrot Stillwater": the crop, and the variety where one is chosen. */
export function cropWithVariety(crop: string, given: string, variety: string): string {
  const name = cropName(crop, given);
  return variety ? `${name} ${varietyName(variety, gardenState.garden?.varieties ?? [])}` : name;
}

/** A crop as the program's problems name it, by its id or its English name. */
export function namedCrop(named: string): string {
  const known = gardenState.garden?.crops.find((each) => each.id === named || each.name === named);
  return cropName(known?.id ?? named, named);
}

/** A bed as the program's problems name it, by its id or its name. */
export const bedName = (named: string) =>
  gardenState.garden?.beds.find((each) => each.id === named)?.name ?? named;

/** "Carrot Stillwater, Long bed" */
export const standName = (stand: Stand) =>
  preferences.texts.stand.title(cropWithVariety(stand.crop, stand.crop_name, stand.variety), stand.bed_name);

/** "Carrot Stillwater, Long bed (label s12)": where stands of one kind in one bed must be told apart. */
export const labelledName = (stand: Stand) =>
  `${standName(stand)} (${preferences.texts.stand.labelled(stand.id)})`;

/** "over 12 weeks from 1 Nov": how what waits in the ground is pulled; empty for what does not. */
export function pulledText(stand: Pulled): string {
  const from = pulledFrom(stand);
  const day = from === undefined ? undefined : shortDay(from);
  return stand.pick_weeks ? preferences.texts.stand.pulledOver(number(pulledWeeks(stand)), day) : '';
}

/** The stand of an id as the last outlook tells it. */
export const standOf = (id: string) => gardenState.outlook?.stands.find((each) => each.id === id);

/** What a wish asks for, by its id; the id itself where the garden has no such wish. */
export function wishName(id: string): string {
  const want = gardenState.garden?.wants.find((each) => each.id === id);
  if (!want) return id;
  if (!want.crop) return preferences.texts.anyOf(want.group);
  return cropName(
    want.crop,
    gardenState.garden?.crops.find((each) => each.id === want.crop)?.name ?? want.crop,
  );
}

/** What ends a stand, or keeps it from coming to anything: several where they take as many years each. */
export const limitWords = (limits: string) => causesSaid(limits, preferences.texts.limits);

/** The packet of an id, with its crop and variety in words; nothing where the garden has no such packet. */
export function packetSaid(id: string, cropGiven: string): { crop: string; year: string } | undefined {
  const packet = gardenState.garden?.packets.find((each) => each.id === id);
  return (
    packet && {
      crop: cropWithVariety(packet.crop, cropGiven, packet.variety),
      year: String(packet.packed_year),
    }
  );
}

/** Of ten servings a tenth is no longer worth telling. */
const kTellsTenths = 10;

/** An amount of servings or pieces alone, or a weight: where the unit stands beside it already. */
export const wishNumber = (amount: number, unit: Want['unit']) =>
  unit === 'grams' ? weightText(amount) : number(amount, amount < kTellsTenths ? 1 : 0);

/** An amount in the unit of a wish: "600 g", "3 servings". */
export const wishAmount = (amount: number, unit: Want['unit']) =>
  unit === 'grams' ? weightText(amount) : preferences.texts.table.amounts[unit](wishNumber(amount, unit));
