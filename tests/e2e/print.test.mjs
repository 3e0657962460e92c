// Paper and calendar by the real binary, read back by programs that are not ours: poppler (pdfinfo, pdffonts, pdftotext,
// pdftoppm), zbar for the codes, python3-icalendar for the calendar (all Debian packages, see scripts/setup).
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { describe, it } from 'node:test';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { must, mustJson, scratch, sowtide } from './support.mjs';

const directory = scratch();
const kinds = ['labels', 'sowing-sheet', 'bed-sheets', 'season', 'table'];
const day = '2026-03-20';

function run(program, ...args) {
  const done = spawnSync(program, args, { encoding: 'utf8', maxBuffer: 256 << 20 });
  assert.equal(done.status, 0, `${program} ${args.join(' ')}: ${done.error ?? done.stderr}`);
  return done.stdout;
}

/** An invented garden with `beds` beds of five sowings each, its stands given, so that nothing has to be planned. */
function garden(name, beds) {
  const crops = ['beet', 'lettuce', 'bush-bean', 'tomato', 'carrot'];
  let text = `name = "${name}"\n[site]\nname = "${name}"\nlat = 47.4\nlon = 8.5\nelevation_m = 400\n[normals]\n`;
  text += 'tmax_c = [4,6,11,15,19,22,25,24,20,14,8,5]\ntmin_c = [-2,-1,2,5,9,12,14,14,10,7,2,-1]\nprecip_mm = [60,60,70,80,110,120,115,120,90,80,75,75]\n';
  if (beds > 0) text += '[[trays]]\nid = "t"\nname = "Shelf by the long kitchen window"\ncells = 120\ncell_width_mm = 40\nplace = "heat_mat"\ntemp_c = 21\n';
  let stands = '';
  for (let b = 0; b < beds; b += 1) {
    text += `[[beds]]\nid = "b${b}"\nname = "Bed ${b + 1}${b === 1 ? ' behind the old greenhouse by the lane' : ''}"\nlength_m = ${b % 7 === 3 ? 9.5 : 3.2}\nwidth_m = ${b % 5 === 2 ? 0.6 : 1.2}\n`;
    for (let s = 0; s < 5; s += 1) {
      const crop = crops[(b + s) % 5];
      const tray = crop === 'lettuce' || crop === 'tomato';
      const week = 23 + 7 * ((b + 2 * s) % 9);
      const sow = new Date(Date.UTC(2026, 2, week)).toISOString().slice(0, 10);
      stands += `[[stands]]\nid = "s${b * 5 + s + 1}"\ncrop = "${crop}"\nmethod = "${tray ? 'start-indoors' : 'direct-sow'}"\nsow = ${sow}\n`;
      stands += `clumps = 8\nplants_per_clump = 1\nspacing_mm = 220\nbed = "b${b}"\nfrom_m = ${(0.6 * s).toFixed(2)}\nto_m = ${(0.6 * s + 0.6).toFixed(2)}\nseeds_per_cell = 2\ncells = 10\n`;
      if (tray) stands += 'tray = "t"\n';
    }
  }
  text += stands;
  if (beds > 0) for (const crop of crops) text += `[[wants]]\nid = "w-${crop}"\ncrop = "${crop}"\namount_per_week = 3\nunit = "servings"\nfrom = "05-01"\nto = "11-15"\n`;
  const toml = join(directory, `${name}.toml`);
  const file = join(directory, `${name}.sowtide`);
  writeFileSync(toml, text);
  must('new', file, '--from', toml);
  return file;
}

const small = garden('small', 3);
const large = garden('large', 40);
const empty = garden('empty', 0);

function print(file, kind, ...options) {
  const out = join(directory, `out-${kind}.pdf`);
  must('print', file, kind, '--date', day, '--out', out, ...options);
  return out;
}

/** Pages of a PDF: size and the boxes of its words, in points. */
function pagesOf(pdf) {
  const html = run('pdftotext', '-bbox', pdf, '-');
  return html.split('<page ').slice(1).map((page) => {
    const [, width, height] = page.match(/width="([\d.]+)" height="([\d.]+)"/);
    const words = [...page.matchAll(/<word xMin="([-\d.]+)" yMin="([-\d.]+)" xMax="([-\d.]+)" yMax="([-\d.]+)">(.*?)<\/word>/g)];
    return {
      width: Number(width),
      height: Number(height),
      words: words.map(([, x0, y0, x1, y1, text]) => ({ x0: Number(x0), y0: Number(y0), x1: Number(x1), y1: Number(y1), text })),
    };
  });
}

/** Words that leave the paper's edge free, and pairs of words that lie on one another by more than a sliver. */
function faultsOf(page, edge) {
  const faults = [];
  for (const w of page.words) {
    if (w.x0 < edge || w.y0 < edge || w.x1 > page.width - edge || w.y1 > page.height - edge) faults.push(`off the page: ${w.text}`);
  }
  for (let i = 0; i < page.words.length; i += 1) {
    for (let j = i + 1; j < page.words.length; j += 1) {
      const [a, b] = [page.words[i], page.words[j]];
      const across = Math.min(a.x1, b.x1) - Math.max(a.x0, b.x0);
      const down = Math.min(a.y1, b.y1) - Math.max(a.y0, b.y0);
      // A line's box holds ascent and descent of its font: neighbours in a tight setting share a little of it.
      if (across > 0.8 && down > 0.45 * Math.min(a.y1 - a.y0, b.y1 - b.y0)) faults.push(`"${a.text}" on "${b.text}"`);
    }
  }
  return faults;
}

function expectGoodPages(pdf, what, edge) {
  const pages = pagesOf(pdf);
  assert.ok(pages.length > 0);
  for (const [i, page] of pages.entries()) {
    assert.ok(page.words.length > 5, `${what}: page ${i + 1} is nearly empty`);
    assert.ok(!page.words.some((w) => w.text.includes('⟦')), `${what}: a text is missing`);
    assert.deepEqual(faultsOf(page, edge).slice(0, 5), [], `${what}, page ${i + 1}`);
  }
  return pages;
}

describe('print', () => {
  for (const kind of kinds) {
    // Labels reach closer to the edge than any other sheet.
    const edge = kind === 'labels' ? 8 : 30;
    for (const [paper, language, units] of [['a4', 'en', 'metric'], ['letter', 'en', 'us'], ['a4', 'de', 'metric']]) {
      it(`${kind} on ${paper} in ${language}, ${units}: every word on the page, none upon another`, () => {
        for (const file of [small, empty]) {
          const pdf = print(file, kind, '--paper', paper, '--language', language, '--units', units, '--address', 'http://garden.example:8420');
          expectGoodPages(pdf, `${kind} ${file}`, edge);
        }
      });
    }
    it(`${kind} of 40 beds and 200 stands`, () => {
      const pages = expectGoodPages(print(large, kind, '--address', 'http://garden.example:8420'), kind, edge);
      if (kind === 'bed-sheets') assert.equal(pages.length, 40);
      if (kind === 'labels') assert.equal(pages.length, Math.ceil(200 / 24));
    });
  }

  it('small labels keep their words too', () => {
    for (const [paper, size] of [['letter', '2.625x1in'], ['letter', '4x2in'], ['a4', '63.5x38.1'], ['a4', '105x48']]) {
      expectGoodPages(print(small, 'labels', '--paper', paper, '--label-size', size, '--address', 'http://garden.example:8420'), size, 8);
    }
  });

  it('embeds its fonts and names its title', () => {
    const pdf = print(small, 'season');
    assert.match(run('pdfinfo', pdf), /Title: +small: The season/);
    const fonts = run('pdffonts', pdf).trim().split('\n').slice(2);
    assert.ok(fonts.length > 0);
    for (const font of fonts) assert.match(font, / yes +yes +yes /, font); // embedded, subset, with Unicode
  });

  it('makes codes that a reader takes to the stand', () => {
    const pdf = print(small, 'labels', '--address', 'http://garden.example:8420/');
    run('pdftoppm', '-r', '300', '-gray', '-png', '-f', '1', '-l', '1', pdf, join(directory, 'labels'));
    const codes = run('zbarimg', '-q', '--raw', join(directory, 'labels-1.png')).trim().split('\n').sort();
    const wanted = Array.from({ length: 15 }, (_, i) => `http://garden.example:8420/#/stand/s${i + 1}`).sort();
    assert.deepEqual(codes, wanted);
  });

  it('begins at the label it is told', () => {
    const first = (n) => pagesOf(print(small, 'labels', '--first-label', String(n)))[0].words.find((w) => w.text === 's1');
    assert.ok(first(4).y0 > first(1).y0 + 90, 'the fourth label lies a row (37 mm) further down');
  });

  it('says the same as today and outlook do', () => {
    const text = run('pdftotext', '-layout', print(small, 'sowing-sheet'), '-');
    for (const task of mustJson('today', 'today', small, '--date', day, '--days', '7').tasks.filter((t) => t.kind === 'sow')) {
      assert.ok(text.includes(`(${task.stand})`), `${task.stand} is on the sowing sheet`);
    }
  });

  it('hands out windows of any place on one page', () => {
    const place = join(directory, 'Southmere.toml');
    writeFileSync(place, '[site]\nname = "Southmere"\nlat = -40\nlon = 175\nelevation_m = 50\n[normals]\ntmax_c = [23,23,19,15,10,7,6,7,10,14,18,21]\ntmin_c = [13,13,10,7,3,1,0,0,2,4,8,11]\nprecip_mm = [65,65,65,75,70,70,60,50,50,45,55,60]\n');
    for (const options of [['--paper', 'a4'], ['--paper', 'letter', '--language', 'de']]) {
      const pages = expectGoodPages(print(place, 'handout', ...options), 'handout', 30);
      assert.equal(pages.length, 1);
    }
  });

  it('answers problems with what, where and what to do', () => {
    for (const [args, code] of [
      [['poster'], 2],
      [['labels', '--paper', 'a5'], 2],
      [['season', '--language', 'xx'], 1],
      [['labels', '--label-size', '1x1'], 1],
      [['sowing-sheet', '--weeks', '0'], 1],
    ]) {
      const done = sowtide('print', small, ...args, '--out', join(directory, 'never.pdf'));
      assert.equal(done.code, code, args.join(' '));
      assert.match(done.err, /sowtide: .+/);
    }
  });

  it('says in JSON what it wrote', () => {
    const file = join(directory, 'json.pdf');
    const answer = mustJson('print', 'print', small, 'table', '--date', day, '--out', file);
    assert.equal(answer.file, file);
    assert.equal(readFileSync(file).length, answer.bytes);
  });
});

describe('calendar', () => {
  // Every entry as python3-icalendar understands it.
  const reader = `
import icalendar, json, sys
calendar = icalendar.Calendar.from_ical(open(sys.argv[1], 'rb').read())
entries = [{'kind': c.name, 'uid': str(c['UID']), 'summary': str(c['SUMMARY']), 'text': str(c.get('DESCRIPTION', '')),
  'start': (c.get('DTSTART') or c.get('DUE')).dt.isoformat(), 'end': (c.get('DTEND') or c.get('DUE')).dt.isoformat(), 'stamp': c['DTSTAMP'].dt.isoformat(),
  'place': str(c.get('LOCATION', '')), 'url': str(c.get('URL', ''))} for c in calendar.walk() if c.name in ('VEVENT', 'VTODO')]
errors = [e for c in calendar.walk() for e in c.errors]
json.dump({'version': str(calendar['VERSION']), 'product': str(calendar['PRODID']), 'entries': entries, 'errors': errors}, sys.stdout)
`;
  const read = (file, ...options) => {
    const out = join(directory, 'out.ics');
    must('print', file, 'calendar', '--date', day, '--out', out, ...options);
    return JSON.parse(run('/usr/bin/python3', '-c', reader, out));
  };

  it('is read without an error by an independent reader, in both languages', () => {
    for (const language of ['en', 'de']) {
      const calendar = read(large, '--language', language);
      assert.deepEqual(calendar.errors, []);
      assert.equal(calendar.version, '2.0');
      assert.ok(calendar.entries.length > 600);
      assert.equal(new Set(calendar.entries.map((e) => e.uid)).size, calendar.entries.length);
    }
  });

  it('holds whole days, with text, place and link come through unharmed', () => {
    const { entries } = read(small, '--address', 'http://garden.example:8420');
    const sow = entries.find((e) => e.uid.endsWith('-s1-sow@sowtide.invalid'));
    assert.equal(sow.kind, 'VEVENT');
    assert.equal(sow.summary, 'Sow Beet (s1)');
    assert.equal(sow.start, '2026-03-23');
    assert.equal(sow.end, '2026-03-24');
    assert.match(sow.text, /^10 places 22 cm apart, 2 seeds each, 13 mm deep, in Bed 1, 0\.00 – 0\.60 m\.(\n|$)/);
    assert.equal(sow.place, 'Bed 1, 0.00 – 0.60 m');
    assert.equal(sow.url, 'http://garden.example:8420/#/stand/s1');
    for (const entry of entries) assert.ok(entry.start >= day);
  });

  it('agrees with the outlook', () => {
    const { entries } = read(small);
    for (const stand of mustJson('outlook', 'outlook', small, '--date', day).stands) {
      const first = stand.events.find((e) => e.name === 'first-pick');
      const entry = entries.find((e) => e.uid.endsWith(`-${stand.id}-first-pick@sowtide.invalid`));
      assert.equal(entry?.start, first.probability > 0 ? first.p50 : undefined, stand.id);
    }
  });

  it('offers to-dos, and an empty calendar for an empty garden', () => {
    // A to-do of a single good day has a DUE and no DTSTART, which would have to lie before it (RFC 5545, 3.8.2.3).
    const todos = read(small, '--todos').entries;
    assert.ok(todos.length > 0);
    assert.ok(todos.every((e) => e.kind === 'VTODO' && e.start <= e.end));
    assert.deepEqual(read(empty).entries, []);
  });
});
