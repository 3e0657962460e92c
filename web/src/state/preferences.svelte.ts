// How this person wants to see things, kept on this device.

import type { Day } from '../domain/days';
import type { UnitSystem } from '../domain/units';
import { catalogues } from '../texts/catalogues';
import type { Texts } from '../texts/en';
import { deviceStore } from './deviceStore';

export type Look = 'system' | 'light' | 'dark';

/** Where the device speaks none that there is. */
const kUsualLanguage = 'en';
const kStorageKey = 'sowtide.preferences';

interface Stored {
  units?: UnitSystem;
  look?: Look;
  language?: string;
  tallBeds?: boolean;
}

function readStored(): Stored {
  try {
    return JSON.parse(deviceStore.read(kStorageKey) ?? '{}') as Stored;
  } catch {
    return {};
  }
}

class Preferences {
  /** Nothing chosen: the garden's own units. */
  chosenUnits = $state<UnitSystem | undefined>();
  gardenUnits = $state<UnitSystem>('metric');
  /** The day at the server, beside which days are told; NaN before it is known. */
  today = $state<Day>(NaN);
  look = $state<Look>('system');
  language = $state(kUsualLanguage);
  tallBeds = $state(false);

  constructor() {
    const stored = readStored();
    this.chosenUnits = stored.units;
    this.look = stored.look ?? 'system';
    this.tallBeds = stored.tallBeds ?? false;
    const wanted = stored.language ?? navigator.language.split('-')[0]!;
    this.language = wanted in catalogues ? wanted : kUsualLanguage;
  }

  get units(): UnitSystem {
    return this.chosenUnits ?? this.gardenUnits;
  }

  get texts(): Texts {
    return catalogues[this.language]!;
  }

  /** The locale of numbers and dates: the device's where it speaks the chosen language, else the catalogue's. */
  locale = $derived(
    navigator.languages.find((tag) => tag.split('-')[0] === this.language && tag.includes('-')) ??
      this.texts.locale,
  );

  save(): void {
    const stored: Stored = { look: this.look, language: this.language, tallBeds: this.tallBeds };
    if (this.chosenUnits) stored.units = this.chosenUnits;
    deviceStore.write(kStorageKey, JSON.stringify(stored));
  }
}

export const preferences = new Preferences();
