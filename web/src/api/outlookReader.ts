// Reads the outlook again without reading again what is the same in it.

import type { OutlookAnswer, Stand } from './types';

const kStands = '"stands": [';

/**
 * The program writes a stand a line. A line that stands where it stood before is the same stand and is the same object again,
 * so that an entry about one stand of hundreds has one stand read anew. An answer laid out otherwise is read as a whole.
 */
export class OutlookReader {
  #lines: string[] = [];
  #stands: Stand[] = [];

  read(text: string): OutlookAnswer {
    return this.#readLines(text) ?? (JSON.parse(text) as OutlookAnswer);
  }

  #readLines(text: string): OutlookAnswer | undefined {
    const begin = text.indexOf(kStands) + kStands.length;
    const end = text.lastIndexOf(']');
    if (begin < kStands.length || end < begin) return undefined;
    // A line break inside a text is written as \n in JSON, so these part the stands and nothing else.
    const lines = end === begin ? [] : text.slice(begin, end).split(',\n');
    try {
      const answer = JSON.parse(`${text.slice(0, begin)}${text.slice(end)}`) as OutlookAnswer;
      const stands = lines.map((line, i) => {
        const known = line === this.#lines[i] ? this.#stands[i] : undefined;
        return known ?? (JSON.parse(line) as Stand);
      });
      this.#lines = lines;
      this.#stands = stands;
      return { ...answer, stands };
    } catch (problem) {
      if (problem instanceof SyntaxError) return undefined;
      throw problem;
    }
  }
}
