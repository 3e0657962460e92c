// A stand-in for `sowtide serve` while working on the page: the same routes, answered from fixtures, with events
// kept in memory. Used by the page's own tests when no binary is given; it computes nothing.
//   node mock/server.mjs [season|big] [port]

import { createServer } from 'node:http';
import { readFile } from 'node:fs/promises';
import { extname, join, normalize } from 'node:path';
import { fileURLToPath } from 'node:url';
import { makeFixture } from '../fixtures/make.mjs';
import { kPlaces, makeSetup, nearestPlace } from '../fixtures/setup.mjs';
import { makeSite } from '../fixtures/site.mjs';
import { makeJudgement, makePicture, makeStanding, makeTrial } from '../fixtures/stand.mjs';
import { makeNursery, makePackets, makeStore, makeWindows } from '../fixtures/seed.mjs';
import { makeTable } from '../fixtures/table.mjs';

const kDist = fileURLToPath(new URL('../dist/', import.meta.url));
const kTypes = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.webmanifest': 'application/manifest+json',
};
/** The same policy as the real server's, so that what it forbids shows here too. */
export const kPolicy =
  "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; font-src 'self'; connect-src 'self'; " +
  "manifest-src 'self'; worker-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'";

function send(response, status, body, type = 'application/json; charset=utf-8') {
  response.writeHead(status, {
    'Content-Type': type,
    'Content-Security-Policy': kPolicy,
    'X-Content-Type-Options': 'nosniff',
  });
  response.end(body);
}

const sendJson = (response, value, status = 200) => send(response, status, JSON.stringify(value));

async function sendFile(response, path) {
  const name = normalize(path === '/' ? '/index.html' : path);
  try {
    send(
      response,
      200,
      await readFile(join(kDist, name)),
      kTypes[extname(name)] ?? 'application/octet-stream',
    );
  } catch {
    sendJson(response, { error: { code: 'not-found', what: `There is no ${path} here.` } }, 404);
  }
}

/** A stand a line, as the program writes it. */
function outlookText({ stands, ...head }) {
  const lines = stands.map((stand) => JSON.stringify(stand)).join(',\n');
  return `${JSON.stringify(head, null, 2).replace(/\n}$/, '')},\n  "stands": [${lines}]\n}`;
}

const kDayMs = 86_400_000;
const shiftDay = (text, days) =>
  text ? new Date(Date.parse(text) + days * kDayMs).toISOString().slice(0, 10) : text;

/** The stand with all its days shifted as far as its sowing: made up, as everything here. */
function movedStand(stand, move) {
  const days = (Date.parse(move.sow ?? stand.sow) - Date.parse(stand.sow)) / kDayMs;
  const shifted = (text) => shiftDay(text, days);
  return {
    ...stand,
    ...move,
    events: stand.events.map((event) => ({
      ...event,
      p10: shifted(event.p10),
      p50: shifted(event.p50),
      p90: shifted(event.p90),
    })),
    weeks: stand.weeks.map((week) => ({ ...week, week_start: shifted(week.week_start) })),
    ready_daily: { ...stand.ready_daily, first: shifted(stand.ready_daily.first) },
    fan: { ...stand.fan, first: shifted(stand.fan.first) },
  };
}

function readBody(request, call) {
  const chunks = [];
  request.on('data', (chunk) => chunks.push(chunk));
  request.on('end', () => call(JSON.parse(Buffer.concat(chunks).toString())));
}

/** A stand put in by hand, grown as the first of its crop is: made up, as everything here. Nothing where there is no room. */
function ownStand(told, { stands, garden, today }) {
  const bed = garden.beds.find((each) => each.id === told.bed);
  const spacing = told.spacing_mm ?? 100;
  const length = (Math.ceil(told.clumps / Math.floor((bed.width_m * 1000) / spacing)) * spacing) / 1000;
  if (length > bed.length_m) return undefined;
  const like = stands.find((each) => each.crop === told.crop) ?? stands[0];
  const from = told.from_m ?? 0;
  return {
    ...like,
    id: `s${stands.length + 1}`,
    crop: told.crop,
    crop_name: garden.crops.find((each) => each.id === told.crop).name,
    variety: told.variety ?? '',
    bed: bed.id,
    bed_name: bed.name,
    from_m: from,
    to_m: from + length,
    clumps: told.clumps,
    spacing_mm: spacing,
    method: told.bought || told.tray ? 'start-indoors' : 'direct-sow',
    tray: told.tray ?? '',
    sow: told.day,
    set_out: told.bought && told.day > today ? told.day : null,
    set_out_on: told.bought && told.day <= today ? told.day : null,
    over_on: null,
    comes_bought: Boolean(told.bought),
    state: told.day > today ? 'planned' : told.bought ? 'growing' : 'sown',
    facts: told.bought ? { set_out: told.day } : told.day > today ? {} : { sown: told.day },
  };
}

const withoutFan = ({ fan, facts, ...rest }) => rest;

/** A picture where the program draws a stand's code: four squares that open nothing. */
const kCode =
  '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 4 4"><path d="M0 0h2v2H0zM2 2h2v2H2z"/></svg>';

export function startMock(name = 'season', port = 0) {
  const { today: firstDay, garden, stands, tasks } = makeFixture(name);
  let today = firstDay;
  const events = [];
  const setup = makeSetup();
  const listeners = new Set();
  let revision = 0;
  const momentText = () => `event: revision\ndata: ${JSON.stringify({ revision, today })}\n\n`;
  const tellMoment = () => {
    for (const listener of listeners) listener.write(momentText());
  };
  const tellAll = () => {
    revision += 1;
    tellMoment();
  };
  const outlook = (list) => ({ garden: garden.name, today, stands: list });
  const addEvents = (list) => {
    const fresh = list.filter((event) => !events.some((known) => known.id === event.id));
    events.push(...fresh);
    tellAll();
    return { added: fresh.length, revision };
  };
  const undone = () =>
    new Set(events.filter((event) => event.kind === 'corrected').map((event) => event.target));
  /** As the log has it: what was planned and is sown by an entry that stands. */
  const asLogged = (stand) => {
    const sown =
      stand.state === 'planned' &&
      events.some((event) => event.kind === 'sown' && event.stand === stand.id && !undone().has(event.id));
    return sown ? { ...stand, state: 'sown' } : stand;
  };
  /** What was weighed of a stand; the stand-in turns no diameter and no size into a weight. */
  const observed = (stand) =>
    events
      .filter((event) => event.kind === 'measured' && event.stand === stand.id && event.grams > 0)
      .filter((event) => !undone().has(event.id))
      .map((event) => ({ date: event.date, weight_g: event.grams, told: 'weighed' }));
  const isDone = (task) =>
    events.some(
      (event) => event.kind === task.log_event && event.stand === task.stand && !undone().has(event.id),
    );
  const server = createServer((request, response) => {
    const { pathname, searchParams } = new URL(request.url, 'http://localhost');
    const one = /^\/api\/outlook\/([\w-]+)$/.exec(pathname)?.[1];
    if (pathname === '/api/garden') return sendJson(response, garden);
    if (pathname === '/api/outlook')
      return send(response, 200, outlookText(outlook(stands.map(withoutFan).map(asLogged))));
    if (one) {
      const found = stands
        .filter((stand) => stand.id === one)
        .map((stand) => ({
          ...stand,
          observed: observed(stand),
          standing: makeStanding(searchParams.get('on') ?? today, stand),
        }));
      if (found.length > 0) return sendJson(response, outlook(found));
      return sendJson(response, { error: { code: 'not-found', what: `There is no stand ${one}.` } }, 404);
    }
    if (/^\/api\/stands\/[\w-]+\/code$/.test(pathname)) {
      response.writeHead(200, { 'content-type': 'image/svg+xml' });
      return response.end(kCode);
    }
    if (pathname === '/api/site') return sendJson(response, makeSite(today));
    if (pathname === '/api/store') return sendJson(response, makeStore(today, events));
    if (pathname === '/api/table') return sendJson(response, makeTable(garden, today, stands));
    if (pathname === '/api/packets') return sendJson(response, makePackets(today));
    if (pathname === '/api/windows') return sendJson(response, makeWindows());
    if (pathname === '/api/nursery') return sendJson(response, makeNursery(today, garden.trays, stands));
    if (pathname === '/api/today')
      return sendJson(response, { today, tasks: tasks.filter((task) => !isDone(task)) });
    if (pathname === '/api/stands' && request.method === 'POST') {
      return readBody(request, (told) => {
        const stand = ownStand(told, { stands, garden, today });
        if (!stand) {
          const problem = {
            code: 'infeasible',
            what: 'the bed is not that long',
            where: { field: 'clumps' },
          };
          return sendJson(response, { error: problem }, 422);
        }
        stands.push(stand);
        tellAll();
        const { id, crop, bed, from_m, to_m, clumps, spacing_mm, method } = stand;
        const logged = told.day > today ? 'noted' : told.bought ? 'set-out' : 'sown';
        const made = {
          stand: id,
          crop,
          bed,
          from_m,
          to_m,
          clumps,
          spacing_mm,
          method,
          day: told.day,
          logged,
          displaced: [],
        };
        sendJson(response, made);
      });
    }
    if (/^\/api\/stands\/[\w-]+\/try\/table$/.test(pathname)) {
      const wants = makeTable(garden, today, stands).wants.map(({ want, unit, wanted, mean_reaches }) => ({
        want,
        unit,
        wanted,
        before: mean_reaches,
        after: mean_reaches / 2,
      }));
      return sendJson(response, { members: 40, wants });
    }
    const moving = request.method === 'GET' ? null : /^\/api\/stands\/([\w-]+)(\/try)?$/.exec(pathname);
    if (moving) {
      const at = stands.findIndex((stand) => stand.id === moving[1]);
      return readBody(request, ({ put_right: _, ...told }) => {
        const { from_m: from, to_m: to } = stands[at];
        const bedName = garden.beds.find((each) => each.id === (told.bed ?? stands[at].bed))?.name;
        const move = { to_m: (told.from_m ?? from) + to - from, bed_name: bedName, ...told };
        const stand = movedStand(stands[at], move);
        if (!moving[2]) {
          stands[at] = stand;
          tellAll();
        }
        sendJson(response, outlook([stand]));
      });
    }
    const judged = /^\/api\/judge\/([\w-]+)$/.exec(pathname);
    const looked = /^\/api\/stands\/([\w-]+)\/(picture|removal)$/.exec(pathname);
    const id = (judged ?? looked)?.[1];
    if (id) {
      const stand = stands.find((each) => each.id === id) ?? stands[0];
      if (judged) return sendJson(response, makeJudgement(today, stand));
      return sendJson(
        response,
        looked[2] === 'picture' ? makePicture(today, stand) : makeTrial(today, stand, searchParams),
      );
    }
    if (pathname === '/api/household') {
      const people = Number(searchParams.get('people'));
      const source = 'invented for the stand-in';
      return sendJson(response, {
        people,
        amounts: [
          { crop: 'carrot', grams_per_week: 120 * people, source, note: '' },
          { crop: 'spinach', grams_per_week: 22 * people, source, note: '' },
        ],
      });
    }
    if (pathname === '/api/places') return sendJson(response, kPlaces);
    if (pathname === '/api/places/nearest') return sendJson(response, nearestPlace(searchParams));
    const part = /^\/api\/setup(?:\/(\w+))?$/.exec(pathname);
    if (part && !part[1]) return sendJson(response, setup.answer());
    if (part) return readBody(request, (value) => sendJson(response, setup.put(part[1], value)));
    if (pathname === '/api/plan' || pathname === '/api/plan/trial') {
      return send(response, 204, '');
    }
    if (pathname === '/api/changes') {
      response.writeHead(200, { 'Content-Type': 'text/event-stream', 'Cache-Control': 'no-store' });
      response.write(momentText());
      listeners.add(response);
      return request.on('close', () => listeners.delete(response));
    }
    if (pathname === '/api/events/sync') {
      return readBody(request, ({ entries }) => {
        addEvents(entries.map((entry) => entry.event));
        sendJson(response, {
          results: entries.map((entry) => ({ id: entry.event.id, status: 'kept' })),
          revision,
        });
      });
    }
    if (pathname === '/api/events' && request.method === 'POST') {
      return readBody(request, (list) => sendJson(response, addEvents(list)));
    }
    if (pathname === '/api/events') return sendJson(response, events);
    return sendFile(response, pathname);
  });
  return new Promise((resolve) => {
    server.listen(port, '127.0.0.1', () =>
      resolve({
        url: `http://127.0.0.1:${server.address().port}`,
        /** The next day begins; listeners are told unless they are to sleep through it. */
        beginDay: ({ told }) => {
          today = shiftDay(today, 1);
          if (told) tellMoment();
        },
        stop: () =>
          new Promise((done) => {
            server.closeAllConnections();
            server.close(done);
          }),
      }),
    );
  });
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const { url } = await startMock(process.argv[2] ?? 'season', Number(process.argv[3] ?? 4173));
  console.log(`Made-up answers on ${url}`);
}
