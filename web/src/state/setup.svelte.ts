// The garden's description as it is being changed: one part after another goes to the server as it is set.

import { type ApiProblem, getSetup, problemOf, putSetup } from '../api/client';
import type { SetupAnswer } from '../api/types';
import { gardenState } from './garden.svelte';

export class SetupDraft {
  answer = $state.raw<SetupAnswer | undefined>();
  /** Why the parts could not be read, or the last one not be saved. */
  problem = $state.raw<ApiProblem | undefined>();
  saved = $state(false);
  #saving: Promise<void> = Promise.resolve();
  #waiting = 0;

  async read(): Promise<void> {
    try {
      this.answer = await getSetup();
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
  saveAbout(about: Partial<Pick<SetupAnswer, 'name' | 'cool_store'>>): Promise<void> {
    if (this.answer) this.answer = { ...this.answer, ...about };
    return this.send('about', about);
  }

  /** Sends a part that is not shown as it is sent: a place by its name. */
  send(part: string, value: unknown): Promise<void> {
    this.#waiting += 1;
    this.#saving = this.#saving.then(() => this.#put(part, value));
    return this.#saving;
  }

  async #put(part: string, value: unknown): Promise<void> {
    try {
      const answer = await putSetup(part, value);
      this.problem = undefined;
      this.saved = true;
      if (this.#waiting === 1) this.answer = answer;
      void gardenState.read();
    } catch (failure) {
      this.problem = problemOf(failure);
      this.saved = false;
      await this.#putBack();
    } finally {
      this.#waiting -= 1;
    }
  }

  /** What was refused is not there: the parts as the server has them. */
  async #putBack(): Promise<void> {
    try {
      this.answer = await getSetup();
    } catch {
      // Off the network the parts stay as they were set; the problem of the save is told.
    }
  }
}

/** A list with one entry changed, or without it. */
export const changed = <T>(list: T[], at: number, change: Partial<T>): T[] =>
  list.map((each, i) => (i === at ? { ...each, ...change } : each));
export const without = <T>(list: T[], at: number): T[] => list.filter((_, i) => i !== at);
