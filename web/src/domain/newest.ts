// Questions that come faster than their answers: only the newest is worth an answer.

import { InTurn } from './inTurn';

/** Asks one question at a time; what a newer one has outdated is not asked any more, and its answer is dropped. */
export class Newest<Question extends object, Answer> {
  #newest: Question | undefined;
  #turn = new InTurn();

  constructor(private readonly ask: (question: Question) => Promise<Answer>) {}

  /** From now on no other counts. */
  propose(question: Question): void {
    this.#newest = question;
  }

  /** Nothing counts any more. */
  drop(): void {
    this.#newest = undefined;
  }

  /** The answer to a question that was proposed; nothing where it has been outdated by then. */
  answerTo(question: Question): Promise<Answer | undefined> {
    return this.#turn.do(() => this.#askNow(question));
  }

  async #askNow(question: Question): Promise<Answer | undefined> {
    if (!this.#isNewest(question)) return undefined;
    try {
      const answer = await this.ask(question);
      return this.#isNewest(question) ? answer : undefined;
    } catch (failure) {
      if (this.#isNewest(question)) throw failure;
      return undefined;
    }
  }

  #isNewest(question: Question): boolean {
    return this.#newest === question;
  }
}
