// Walks every route of docs/api/openapi.json, with every answer it declares, against the running program.
//
// The table below says how each answer is brought about. An answer that is declared and not in the table fails, and so
// does one in the table that is not declared; every body is checked against its schema.
import assert from 'node:assert/strict';
import { spawn } from 'node:child_process';
import { readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { request as httpRequest } from 'node:http';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { after, before, describe, it } from 'node:test';
import { must, program, root, scratch } from './support.mjs';

const Ajv2020 = createRequire(join(root, 'web', 'package.json'))('ajv/dist/2020.js').default;
const api = JSON.parse(readFileSync(join(root, 'docs', 'api', 'openapi.json'), 'utf8'));
const directory = scratch();

// Invented, with round monthly normals; "bare" has beds and no climate.
const beds = '[[beds]]\nid = "long"\nname = "Long bed"\nlength_m = 6.0\nwidth_m = 1.2\n[[beds]]\nid = "low"\nname = "Low bed"\nlength_m = 2.0\nwidth_m = 1.2\n';
const site = '[site]\nname = "Walked"\nlat = 47.45\nlon = -122.3\nelevation_m = 122\n';
const normals = '[normals]\ntmax_c = [8,10,12,15,19,22,26,26,22,16,11,8]\ntmin_c = [2,2,4,6,9,12,14,14,12,8,5,2]\nprecip_mm = [142,89,94,69,48,37,18,22,38,88,167,145]\n';
const stand = (id, crop, sow, from) => `[[stands]]\nid = "${id}"\ncrop = "${crop}"\nmethod = "direct-sow"\nsow = ${sow}\nclumps = 30\nspacing_mm = 120.0\nbed = "long"\nfrom_m = ${from}.0\nto_m = ${from + 1}.0\ncells = 30\n`;
const wants = '[[wants]]\nid = "w1"\ncrop = "beet"\namount_per_week = 300\nunit = "grams"\nfrom = "07-01"\nto = "09-30"\n';
const packets = '[[packets]]\nid = "p1"\ncrop = "beet"\npacked_year = 2026\nseeds = 200\n';

class Server {
  async start(name, text) {
    const description = join(directory, `${name}.toml`);
    const garden = join(directory, `${name}.sowtide`);
    writeFileSync(description, `name = "${name}"\n${text}`);
    must('new', garden, '--from', description);
    this.process = spawn(program, ['serve', garden, '--port', '0', '--date', '2027-04-20', '--json'], { stdio: ['ignore', 'pipe', 'inherit'] });
    const line = await new Promise((resolve, reject) => {
      let out = '';
      this.process.stdout.on('data', (piece) => { out += piece; if (out.includes('\n')) resolve(out); });
      this.process.on('exit', (code) => reject(new Error(`serve ended with ${code}`)));
    });
    this.port = Number(new URL(JSON.parse(line.split('\n')[0]).url).port);
    return this;
  }

  /** One request with exactly these headers; never follows, never throws on a status. */
  ask(method, path, { body, headers = {}, unfinished = false } = {}) {
    const sent = body === undefined ? undefined : typeof body === 'string' ? body : JSON.stringify(body);
    return new Promise((resolve, reject) => {
      const asked = httpRequest(
        { host: '127.0.0.1', port: this.port, method, path, agent: false, headers: { ...(sent === undefined ? {} : { 'Content-Type': 'application/json', 'Content-Length': Buffer.byteLength(sent) }), ...headers } },
        (answer) => {
          const pieces = [];
          const done = () => resolve({ status: answer.statusCode, headers: answer.headers, body: Buffer.concat(pieces).toString() });
          answer.on('data', (piece) => {
            pieces.push(piece);
            // A stream of events does not end: its greeting is the answer.
            if (answer.headers['content-type'] === 'text/event-stream' && Buffer.concat(pieces).includes('\n\nevent: ')) { done(); asked.destroy(); }
          });
          answer.on('end', done);
        },
      );
      asked.on('error', reject);
      // A body that is announced and does not come: its length alone is answered.
      if (unfinished) asked.write(sent);
      else asked.end(sent);
    });
  }

  async stop() {
    const ended = new Promise((resolve) => this.process.on('exit', resolve));
    this.process.kill('SIGTERM');
    return ended;
  }
}

const event = (id, more) => ({ id, date: '2027-04-12', kind: 'sown', stand: 's1', count: 30, ...more });
const read = { '200': {}, '304': { known: true } };
const season = { ...read, '422': { server: 'bare' } };
const oneStand = (path) => ({ '200': { path: path.replace('{stand}', 's1') }, '404': { path: path.replace('{stand}', 'nobody') } });

/** By operationId, by status: what brings it about. `known`: asked again with the ETag. Those of every route are added below. */
const walks = {
  readApi: read,
  readGarden: season,
  readOutlook: season,
  readWorklist: season,
  readSite: season,
  readTable: season,
  readStandOutlook: { ...season, ...oneStand('/api/outlook/{stand}'), '304': { path: '/api/outlook/s1', known: true }, '400': { path: '/api/outlook/s1?on=soon' }, '422': { path: '/api/outlook/s1', server: 'bare' } },
  readLog: read,
  writeLog: {
    '200': { body: [event('e1', {}), { id: 'e0', date: '2027-04-12', kind: 'watered', target: 'low', litres: 5 }] },
    '400': { body: [{ id: 'x' }] },
    '404': { body: [event('e2', { stand: 'nobody' })] },
    '409': { body: [event('e1', { count: 31 })] },
  },
  syncLog: {
    '200': { body: { entries: [{ event: event('e3', { kind: 'noted', text: 'slugs', count: undefined }) }, { event: event('e4', { stand: 's2' }), crop: 'beet' }] } },
    '400': { body: {} },
  },
  moveStand: {
    '200': { path: '/api/stands/s2', body: { from_m: 3 } },
    '400': { path: '/api/stands/s2', body: { from_m: 9 } },
    '404': { path: '/api/stands/nobody', body: {} },
    '409': { path: '/api/stands/s2', body: { from_m: 2 } },
    '422': { body: { from_m: 3 }, server: 'bare' },
  },
  removeStand: {
    '200': { path: '/api/stands/s3' },
    '404': { path: '/api/stands/nobody' },
    // The log names it (by the entry of writeLog).
    '409': { path: '/api/stands/s1' },
  },
  addStand: {
    '200': { body: { crop: 'radish', bed: 'low', clumps: 20, day: '2027-04-19' } },
    '400': { body: { crop: 'radish', bed: 'nowhere', clumps: 20 } },
    '409': { body: { crop: 'carrot', bed: 'low', clumps: 20, bought: true } },
    '422': { body: { crop: 'radish', bed: 'long', clumps: 20 }, server: 'bare' },
  },
  tryMove: {
    '200': { path: '/api/stands/s2/try', body: { sow: '2027-06-01' } },
    '400': { path: '/api/stands/s2/try', body: { sow: 'soon' } },
    '404': { path: '/api/stands/nobody/try', body: {} },
    '409': { path: '/api/stands/s1/try', body: { sow: '2027-06-01' } },
    '422': { body: { from_m: 3 }, server: 'bare' },
  },
  tryMoveAtTable: {
    '200': { path: '/api/stands/s2/try/table', body: { sow: '2027-06-01' } },
    '400': { path: '/api/stands/s2/try/table', body: { sow: 'soon' } },
    '404': { path: '/api/stands/nobody/try/table', body: {} },
    '409': { path: '/api/stands/s1/try/table', body: { sow: '2027-06-01' } },
    '422': { body: { from_m: 3 }, server: 'bare' },
  },
  readStandCode: { ...season, ...oneStand('/api/stands/{stand}/code'), '304': { path: '/api/stands/s1/code', known: true }, '422': { path: '/api/stands/s1/code', server: 'bare' } },
  readSetup: read,
  changeSetup: {
    '200': { path: '/api/setup/about', body: { name: 'Walked again' } },
    '400': { path: '/api/setup/beds', body: [{ name: 'A' }] },
    '404': { path: '/api/setup/nothing', body: {} },
    // A bed that the log names (by the entry of writeLog) cannot go.
    '409': { path: '/api/setup/beds', body: [{ id: 'long', name: 'Long bed', length_m: 6, width_m: 1.2 }] },
    '412': { path: '/api/setup/about', body: { name: 'B' }, headers: { 'If-Match': '"old"' } },
  },
  judgeAll: { ...season, '400': { path: '/api/judge?date=soon' } },
  judgeStand: { ...season, ...oneStand('/api/judge/{stand}'), '304': { path: '/api/judge/s1', known: true }, '400': { path: '/api/judge/s1?date=soon' }, '422': { path: '/api/judge/s1', server: 'bare' } },
  readStandPicture: { ...season, ...oneStand('/api/stands/{stand}/picture'), '304': { path: '/api/stands/s1/picture', known: true }, '400': { path: '/api/stands/s1/picture?clumps=many' }, '422': { path: '/api/stands/s1/picture', server: 'bare' } },
  tryRemoval: { ...oneStand('/api/stands/{stand}/removal?keep_per_clump=1'), '400': { path: '/api/stands/s1/removal?keep_per_clump=99' }, '422': { path: '/api/stands/s1/removal', server: 'bare' } },
  readStore: season,
  workOutFigure: { '200': { path: '/api/figure/daylight?lat=47&date=2027-06-21' }, '304': { path: '/api/figure/daylight?lat=47&date=2027-06-21', known: true }, '400': { path: '/api/figure/daylight?lat=north' }, '404': { path: '/api/figure/nothing' } },
  readPackets: { ...season, '400': { path: '/api/packets?temp_c=cold' } },
  readNursery: season,
  readWindows: { ...season, '400': { path: '/api/windows?level=high' } },
  readPlaces: read,
  readNearestPlace: { '200': { path: '/api/places/nearest?lat=-33.9&lon=151.2' }, '304': { path: '/api/places/nearest?lat=1&lon=1', known: true }, '400': { path: '/api/places/nearest?lat=north' } },
  readHousehold: { '200': { path: '/api/household?people=3' }, '304': { path: '/api/household?people=2', known: true }, '400': { path: '/api/household?people=many' } },
  printSheet: {
    '200': { path: '/api/print/bed-sheets?paper=letter&language=de' },
    '304': { path: '/api/print/calendar', known: true },
    '400': { path: '/api/print/table?paper=napkin' },
    '403': { path: '/api/print/table', headers: { Origin: 'http://elsewhere.example' } },
    '404': { path: '/api/print/poster' },
  },
  readPlan: { '204': {}, '200': { after: 'plan' }, '304': { after: 'plan', known: true } },
  startPlan: { '202': { body: { time_limit_s: 2, weeks: 12 } }, '400': { body: { weeks: 0 } }, '409': { body: {}, times: 2 }, '422': { body: {}, server: 'bare' } },
  stopPlan: { '200': {} },
  readTrial: { '204': { server: 'bare' }, '200': { after: 'trial' }, '304': { after: 'trial', known: true } },
  keepTrial: { '200': { body: {}, after: 'trial' }, '400': { body: { all: true } }, '404': { body: {}, server: 'bare' }, '409': { body: {}, after: 'otherTrial' } },
  forgetTrial: { '200': {} },
  followChanges: { '200': {} },
  pair: { '200': null, '400': { body: { code: 7 } }, '403': { body: { code: 'AAAA-AAAA' } }, '429': { body: { code: 'AAAA-AAAA' }, times: 12 } },
  readDevices: { '200': {} },
  newPairingCode: { '200': null, '409': { body: {} } },
  forgetDevice: { '200': null, '404': { path: '/api/devices/nobody' } },
};

/**
 * Declared and not walked here: what needs another machine of the home network (tests/serve/documented_routes_test.cpp
 * and pairing_test.cpp bring it about).
 */
const onlyOnTheHomeNetwork = new Set(['pair 200', 'newPairingCode 200', 'forgetDevice 200']);

const operations = Object.entries(api.paths).flatMap(([path, methods]) =>
  Object.entries(methods).map(([method, operation]) => ({ path, method: method.toUpperCase(), ...operation })));

const ajv = new Ajv2020({ allErrors: true, strict: false, validateFormats: false });
for (const name of readdirSync(join(root, 'docs', 'api')).filter((file) => file.endsWith('.json')))
  ajv.addSchema(JSON.parse(readFileSync(join(root, 'docs', 'api', name), 'utf8')), name);

/** The declared answer, with a reference into the components followed. */
function declared(operation, status) {
  const answer = operation.responses[status];
  return answer?.$ref ? { ...api.components.responses[answer.$ref.split('/').pop()] } : answer;
}

/** A reference as seen from the document's own place. */
function absolute(schema) {
  return JSON.parse(JSON.stringify(schema), (key, value) => (key === '$ref' && value.startsWith('#') ? `openapi.json${value}` : value));
}

function checkBody(operation, answer, where) {
  const content = declared(operation, String(answer.status))?.content;
  if (!content) return assert.equal(answer.body, '', `${where} has a body that is not declared`);
  const type = (answer.headers['content-type'] ?? '').split(';')[0];
  assert.ok(content[type], `${where} is ${type}, declared ${Object.keys(content)}`);
  if (type !== 'application/json') return;
  const validate = ajv.compile(absolute(content[type].schema));
  assert.ok(validate(JSON.parse(answer.body)), `${where}: ${ajv.errorsText((validate.errors ?? []).slice(0, 4))}\n${answer.body.slice(0, 300)}`);
}

function checkHeaders(answer, where) {
  assert.match(answer.headers['content-security-policy'] ?? '', /default-src 'none'/, where);
  assert.equal(answer.headers['x-content-type-options'], 'nosniff', where);
  assert.equal(answer.headers['cross-origin-resource-policy'], 'same-origin', where);
  assert.equal(answer.headers['set-cookie'], undefined, where);
}

/** What brings about the refusals that every route has. */
function refusals(operation) {
  const body = operation.requestBody ? {} : undefined;
  const all = {
    '403': { body, headers: { Origin: 'http://elsewhere.example' } },
    '405': { method: 'PATCH', body: {} },
    '421': { body, headers: { Host: 'elsewhere.example' } },
  };
  if (operation.requestBody) {
    all['413'] = { body: '{', headers: { 'Content-Length': (1 << 20) + 1 }, unfinished: true };
    all['415'] = { body: 'a=b', headers: { 'Content-Type': 'application/x-www-form-urlencoded' } };
  }
  return all;
}

describe('the server as its OpenAPI document describes it', () => {
  let whole, bare;
  before(async () => {
    whole = await new Server().start('whole', site + normals + beds + stand('s1', 'beet', '2027-04-10', 0) + stand('s2', 'radish', '2027-05-10', 1) + stand('s3', 'carrot', '2027-05-01', 2) + wants + packets);
    bare = await new Server().start('bare', site + beds);
  });
  after(async () => {
    assert.equal(await whole.stop(), 0, 'a server told to stop ends well');
    await bare.stop();
  });

  async function walk(operation, status, how) {
    const server = how.server === 'bare' ? bare : whole;
    const path = how.path ?? operation.path.replace(/\{.*?\}/, 's1');
    const method = how.method ?? operation.method;
    const options = { body: how.body, headers: how.headers, unfinished: how.unfinished };
    if (how.after === 'plan') await planned();
    if (how.after === 'trial') await tried({});
    if (how.after === 'otherTrial') await tried({ what_if: { trays: [] } });
    for (let i = 1; i < (how.times ?? 1); ++i) await server.ask(method, path, options);
    let answer = await server.ask(method, path, options);
    if (how.known) answer = await server.ask(method, path, { headers: { 'If-None-Match': answer.headers.etag } });
    const where = `${method} ${path}`;
    assert.equal(String(answer.status), status, `${where}: ${answer.body.slice(0, 300)}`);
    checkHeaders(answer, where);
    if (status !== '304') checkBody(operation, answer, where);
    return answer;
  }

  /** Waits for the plan that was begun. */
  async function planned() {
    for (let i = 0; i < 600; ++i) {
      if ((await whole.ask('GET', '/api/plan')).status === 200) return;
      await new Promise((resolve) => setTimeout(resolve, 100));
    }
    assert.fail('no plan came');
  }

  /** Begins a plan that is not kept, and waits for it. */
  async function tried(more) {
    await whole.ask('DELETE', '/api/plan/trial');
    const body = { time_limit_s: 1, weeks: 12, only_try: true, ...more };
    for (let i = 0; i < 600; ++i) {
      // One may still be in work.
      const { status } = await whole.ask('POST', '/api/plan', { body });
      if (status === 202) break;
      await new Promise((resolve) => setTimeout(resolve, 100));
    }
    for (let i = 0; i < 600; ++i) {
      if ((await whole.ask('GET', '/api/plan/trial')).status === 200) return;
      await new Promise((resolve) => setTimeout(resolve, 100));
    }
    assert.fail('no plan came');
  }

  // Moves and deeds first, while the stands are as the file has them; the plan replaces them, so it comes last.
  const order = ['moveStand', 'writeLog', 'tryMove', 'tryMoveAtTable', 'syncLog', 'changeSetup'];
  const last = ['startPlan', 'readPlan', 'stopPlan', 'readTrial', 'keepTrial', 'forgetTrial'];
  const rank = ({ operationId }) => (last.includes(operationId) ? 100 + last.indexOf(operationId) : order.includes(operationId) ? order.indexOf(operationId) : 50);
  for (const operation of [...operations].sort((a, b) => rank(a) - rank(b))) {
    it(`${operation.method} ${operation.path}`, async () => {
      const walked = { ...(walks[operation.operationId] ?? {}) };
      for (const [status, how] of Object.entries(refusals(operation))) walked[status] ??= how;
      walked['401'] = null;
      assert.deepEqual(Object.keys(walked).sort(), Object.keys(operation.responses).sort(), 'declared answers and walked ones differ');
      const statuses = Object.keys(walked).sort((a, b) => Number(a === '429') - Number(b === '429'));
      for (const status of statuses) {
        if (walked[status] === null) {
          assert.ok(status === '401' || onlyOnTheHomeNetwork.has(`${operation.operationId} ${status}`));
          continue;
        }
        if (operation.operationId === 'readPlan' && status === '204') {
          await walk(operation, status, { server: 'bare' });
        } else {
          await walk(operation, status, walked[status]);
        }
      }
    });
  }

  it('takes an entry that looks odd with a caution, and says so once', async (t) => {
    const fresh = await new Server().start('fresh', site + normals + beds + stand('s1', 'beet', '2027-04-10', 0));
    t.after(() => fresh.stop());
    const sync = async () => {
      const body = { entries: [{ event: event('odd', { count: 90000 }) }] };
      const answer = await fresh.ask('POST', '/api/events/sync', { body });
      checkBody(operations.find(({ operationId }) => operationId === 'syncLog'), answer, 'sync');
      return JSON.parse(answer.body).results;
    };
    const [kept] = await sync();
    assert.equal(kept.status, 'kept');
    assert.match(kept.cautions[0], /^90000 seeds, where the plan has \d+$/);
    assert.equal(kept.cautions_said[0].key, 'log-many-seeds');
    assert.deepEqual(await sync(), [{ id: 'odd', status: 'kept' }]);
  });

  it('takes the entries of a day in the order of their coming', async (t) => {
    const fresh = await new Server().start('order', site + normals + beds + stand('s1', 'beet', '2027-04-10', 0));
    t.after(() => fresh.stop());
    const sync = async (...entries) => {
      const answer = await fresh.ask('POST', '/api/events/sync', { body: { entries: entries.map((one) => ({ event: one })) } });
      return JSON.parse(answer.body).results;
    };
    const day = { date: '2027-04-20' };
    await sync(event('sown'), event('counted', { ...day, kind: 'counted', count: 30 }));
    const [first, second] = await sync(
      event('first', { ...day, kind: 'picked', count: 20 }),
      event('second', { ...day, kind: 'picked', count: 15 })
    );
    assert.equal(first.cautions, undefined);
    assert.deepEqual(second.cautions, ['15 plants, where by the log 10 are left of the 30 counted']);
  });

  it('answers a question and its packed form alike', async () => {
    const plain = await whole.ask('GET', '/api/outlook');
    const packed = await whole.ask('GET', '/api/outlook', { headers: { 'Accept-Encoding': 'gzip' } });
    assert.equal(packed.headers['content-encoding'], 'gzip');
    assert.notEqual(packed.headers.etag, plain.headers.etag);
    assert.equal((await whole.ask('GET', '/api/outlook', { headers: { 'If-None-Match': packed.headers.etag } })).status, 304);
  });

  it('serves the schemas beside the document that refers to them', async () => {
    const document = JSON.parse((await whole.ask('GET', '/api/openapi.json')).body);
    assert.deepEqual(document, api);
    const names = new Set(JSON.stringify(api).match(/[a-z-]+\.schema\.json/g));
    assert.ok(names.size > 8);
    for (const name of names) assert.equal((await whole.ask('GET', `/api/${name}`)).status, 200, name);
  });

  it('shows the pairing page without a word of the garden', async () => {
    const page = await whole.ask('GET', '/pair');
    assert.equal(page.status, 200);
    assert.match(page.headers['content-type'], /text\/html/);
    assert.doesNotMatch(page.body, /Walked|whole/);
    for (const file of ['/pair.js', '/pair.css']) assert.equal((await whole.ask('GET', file)).status, 200);
  });
});
