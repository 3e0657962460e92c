// Moves of planned stands in work: what is carried is only tried and drawn; what is let go is tried and kept, each in
// its turn, whatever is carried meanwhile.

import type { Stand } from '../api/types';
import { InTurn } from './inTurn';
import { placeOf, sameMove, shiftedStand, type Move } from './moves';
import { Newest } from './newest';
import type { Stay } from './season';

/** What moves are made in, and who is told of them. */
export interface MovedGarden {
  /** A stand as the garden has it now. */
  now: (id: string) => Stand | undefined;
  /** The stand as it would be after a move. */
  tryOut: (id: string, to: Move) => Promise<Stand | undefined>;
  /** What holds the room in the garden that a stand would take as it would be. */
  taken: (after: Stand) => Stay[];
  /** False where it was refused, which is told there. */
  keep: (id: string, to: Move) => Promise<boolean>;
  /** The stands as they are to be drawn, the one moved last at the end. */
  draw: (inWork: Stand[]) => void;
  moved: (before: Stand) => void;
  /** There is no room where it was let go. */
  noRoom: (stand: Stand, taken: Stay[]) => void;
  failed: (failure: unknown) => void;
}

/** A stand on its way. */
interface OnItsWay {
  id: string;
  to: Move;
  /** What it would be there, as far as is known. */
  after: Stand;
}

/** The server is asked once the pointer rests: until then the days simply go along. */
const kRestMs = 120;

export class MovesInWork {
  #carried: OnItsWay | undefined;
  /** In the order let go. */
  #letGo: OnItsWay[] = [];
  #restTimer: ReturnType<typeof setTimeout> | undefined;
  #turn = new InTurn();
  #tries: Newest<OnItsWay, Stand | undefined>;

  constructor(private readonly garden: MovedGarden) {
    this.#tries = new Newest(({ id, to }) => garden.tryOut(id, to));
  }

  /** Shows what a move would bring. */
  carry(stand: Stand, to: Move): void {
    const way = this.#wayOf(stand, to);
    this.#tries.propose(way);
    this.#carried = way;
    clearTimeout(this.#restTimer);
    this.#restTimer = setTimeout(() => void this.#tryCarried(way), kRestMs);
    this.#draw();
  }

  /** What was carried is where it was again. */
  giveUp(): void {
    this.#carryNothing();
    this.#draw();
  }

  /** Keeps a move where there is room. */
  letGo(stand: Stand, to: Move): Promise<void> {
    this.#carryNothing();
    this.#letGo.push(this.#wayOf(stand, to));
    this.#draw();
    return this.#turn.do(() => this.#keepNext());
  }

  /** Puts a stand back where it was, after all that was let go before. */
  putBack(before: Stand): Promise<boolean> {
    return this.#turn.do(() => this.garden.keep(before.id, placeOf(before)));
  }

  #wayOf(stand: Stand, to: Move): OnItsWay {
    return { id: stand.id, to, after: shiftedStand(this.garden.now(stand.id) ?? stand, to) };
  }

  #carryNothing(): void {
    clearTimeout(this.#restTimer);
    this.#tries.drop();
    this.#carried = undefined;
  }

  async #tryCarried(way: OnItsWay): Promise<void> {
    try {
      this.#answered(way, await this.#tries.answerTo(way));
    } catch (failure) {
      this.garden.failed(failure);
    }
  }

  /**
   * Keys push a stand faster than the server answers: of the pushes that follow on one another the last is wanted, and
   * the one before it only where the last finds no room.
   */
  async #keepNext(): Promise<void> {
    const other = this.#letGo.findIndex((each) => each.id !== this.#letGo[0]?.id);
    const pushes = other < 0 ? [...this.#letGo] : this.#letGo.slice(0, other);
    try {
      for (const way of pushes.toReversed()) if (await this.#keep(way)) break;
    } catch (failure) {
      this.garden.failed(failure);
    } finally {
      this.#letGo = this.#letGo.filter((each) => !pushes.includes(each));
      this.#draw();
    }
  }

  /** False where it does not go. */
  async #keep(way: OnItsWay): Promise<boolean> {
    const { id, to } = way;
    const before = this.garden.now(id);
    if (before && sameMove(placeOf(before), to)) return true;
    const after = await this.garden.tryOut(id, to);
    this.#answered(way, after);
    const taken = after ? this.garden.taken(after) : [];
    if (after && taken.length > 0) {
      this.garden.noRoom(before ?? after, taken);
      return false;
    }
    const kept = await this.garden.keep(id, to);
    if (kept && before) this.garden.moved(before);
    return kept;
  }

  #answered(way: OnItsWay, after: Stand | undefined): void {
    if (!after) return;
    way.after = after;
    this.#draw();
  }

  #draw(): void {
    const ways = this.#carried ? [...this.#letGo, this.#carried] : this.#letGo;
    this.garden.draw(ways.map(({ after }) => after));
  }
}
