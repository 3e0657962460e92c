// The garden's description as it is being changed: one part after another goes to the server as it is set.

import { ApiProblem, getSetup, isChangedElsewhere, problemOf, putSetup, type Tagged } from '../api/client';
import type { SetupAnswer } from '../api/types';
import { InTurn } from '../domain/inTurn';
import { samePart } from '../domain/setup';
import { gardenState } from './garden.svelte';

export class SetupDraft {
  answer = $state.raw<SetupAnswer | undefined>();
  /** Why the parts could not be read, or the last one not be saved. */
  problem = $state.raw<ApiProblem | undefined>();
  saved = $state(false);
  /** What the server told last: the state that changes are made on. */
  #told: Tagged<SetupAnswer> | undefined;
  /** How often what is shown was found to be out of date. */
  #outdated = 0;
  #turn = new InTurn();
  #waiting = 0;

  async read(): Promise<void> {
    try {
      await this.#readAnew();
    } catch (failure) {
      this.problem = problemOf(failure);
    }
  }

  /**
   * Shows the part as it was set and sends it. What is pressed quickly arrives in the order pressed; an answer to an
   * earlier press does not take back what was pressed since.
   */
  save<Part extends keyof SetupAnswer & string>(part: Part, value: SetupAnswer[Part]): Promise<void> {
    if (this.answer) this.answer = { ...this.answer, [part]: value };
    return this.send(part, value);
  }

  /** Shows and sends one of the garden's own facts. */
  saveAbout(about: Partial<Pick<SetupAnswer, 'name' | 'units' | 'cool_store'>>): Promise<void> {
    if (this.answer) this.answer = { ...this.answer, ...about };
    return this.send('about', about);
  }

  /** Sends a part that is not shown as it is sent: a place by its name. */
  send(part: string, value: unknown): Promise<void> {
    this.#waiting += 1;
    const outdated = this.#outdated;
    return this.#turn.do(async () => {
      try {
        // What was pressed on a state that proved to be out of date would write over what nobody here has seen.
        if (outdated === this.#outdated) await this.#put(part, value);
      } finally {
        this.#waiting -= 1;
      }
    });
  }

  async #put(part: string, value: unknown): Promise<void> {
    try {
      this.#told = await this.#write(part, value);
      this.problem = undefined;
      this.saved = true;
      if (this.#waiting === 1) this.answer = this.#told.value;
      void gardenState.read();
    } catch (failure) {
      if (isChangedElsewhere(failure)) this.#outdated += 1;
      this.problem = isChangedElsewhere(failure)
        ? new ApiProblem(412, 'changed-elsewhere', '', '')
        : problemOf(failure);
      this.saved = false;
      await this.#putBack();
    }
  }

  /** Where only other parts were changed meanwhile, once more: nothing unseen is written over then. */
  async #write(part: string, value: unknown): Promise<Tagged<SetupAnswer>> {
    const seen = this.#told;
    try {
      return await putSetup(part, value, seen?.tag ?? '');
    } catch (failure) {
      if (!seen || !isChangedElsewhere(failure)) throw failure;
      const now = await getSetup();
      if (!samePart(part, seen.value, now.value)) throw failure;
      return putSetup(part, value, now.tag);
    }
  }

  async #readAnew(): Promise<void> {
    this.#told = await getSetup();
    this.answer = this.#told.value;
  }

  /** What was refused is not there: the parts as the server has them. */
  async #putBack(): Promise<void> {
    try {
      await this.#readAnew();
    } catch {
      // Off the network the parts stay as they were set; the problem of the save is told.
    }
  }
}

/** A list with one entry changed, or without it. */
export const changed = <T>(list: T[], at: number, change: Partial<T>): T[] =>
  list.map((each, i) => (i === at ? { ...each, ...change } : each));
export const without = <T>(list: T[], at: number): T[] => list.filter((_, i) => i !== at);
