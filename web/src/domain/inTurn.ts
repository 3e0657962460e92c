// Deeds that must not overtake each other.

/** Does one after another. One that fails is told to whoever asked for it, and holds up none behind it. */
export class InTurn {
  #last: Promise<unknown> = Promise.resolve();

  do<T>(deed: () => Promise<T>): Promise<T> {
    const mine = this.#last.then(
      () => deed(),
      () => deed(),
    );
    this.#last = mine;
    return mine;
  }
}
