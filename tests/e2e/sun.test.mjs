// The sun of the real binary against astronomy-engine, a general-purpose astronomy library (MIT; VSOP87, checked by its
// author against NOVAS and JPL Horizons), over many places and dates, polar day and night included.
import assert from 'node:assert/strict';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { describe, it } from 'node:test';
import { mustJson, root } from './support.mjs';

const Astronomy = createRequire(join(root, 'web', 'package.json'))('astronomy-engine');

const latitudes = [-78, -52.3, -33.9, -4.5, 0, 18.2, 40.7, 59.9, 69.6, 82.5];
const moments = ['1995-02-28T06:15:00Z', '2000-01-01T12:00:00Z', '2012-06-20T23:09:00Z', '2026-03-20T14:46:00Z', '2031-10-05T03:30:30Z'];
const longitudeOf = (index) => ((index * 67) % 360) - 180;
const turn = (degrees) => Math.abs(((degrees + 540) % 360) - 180);

describe('sun-position', () => {
  it('lies within 0.01° of astronomy-engine', () => {
    let compared = 0;
    for (const [index, latitude] of latitudes.entries()) {
      for (const moment of moments) {
        const longitude = longitudeOf(index);
        const observer = new Astronomy.Observer(latitude, longitude, 0);
        const equator = Astronomy.Equator('Sun', new Date(moment), observer, true, true);
        const expected = Astronomy.Horizon(new Date(moment), observer, equator.ra, equator.dec, null);
        const { result } = mustJson('figure', 'figure', 'sun-position', `lat=${latitude}`, `lon=${longitude}`, `utc=${moment}`);
        const where = `${latitude} ${longitude} ${moment}`;
        assert.ok(Math.abs(result.geometric_elevation_deg - expected.altitude) < 0.01, `${where}: elevation ${result.geometric_elevation_deg}, expected ${expected.altitude}`);
        const arc = turn(result.azimuth_deg - expected.azimuth) * Math.cos((expected.altitude * Math.PI) / 180);
        assert.ok(arc < 0.01, `${where}: azimuth ${result.azimuth_deg}, expected ${expected.azimuth}`);
        compared += 1;
      }
    }
    assert.equal(compared, 50);
  });
});

describe('day-length', () => {
  it('agrees within two minutes, and on polar day and night', () => {
    const seen = { ordinary: 0, polar: 0 };
    for (const latitude of latitudes) {
      for (const date of ['2026-01-15', '2026-04-10', '2026-06-21', '2026-09-23', '2026-12-21']) {
        const observer = new Astronomy.Observer(latitude, 0, 0);
        const noon = new Date(`${date}T12:00:00Z`);
        const rise = Astronomy.SearchRiseSet('Sun', observer, +1, new Date(`${date}T00:00:00Z`), 1);
        const set = Astronomy.SearchRiseSet('Sun', observer, -1, noon, 1);
        const { result } = mustJson('figure', 'figure', 'day-length', `lat=${latitude}`, 'lon=0', `date=${date}`);
        if (rise && set && rise.date < noon) {
          const expected = (set.date - rise.date) / 3.6e6;
          assert.ok(Math.abs(result.day_length_h - expected) < 2 / 60, `${latitude} ${date}: ${result.day_length_h}, expected ${expected}`);
          seen.ordinary += 1;
        } else {
          const equator = Astronomy.Equator('Sun', noon, observer, true, true);
          const up = Astronomy.Horizon(noon, observer, equator.ra, equator.dec, null).altitude > -0.833;
          assert.equal(result.day_length_h, up ? 24 : 0, `${latitude} ${date}`);
          seen.polar += 1;
        }
      }
    }
    assert.ok(seen.ordinary >= 30 && seen.polar >= 8, JSON.stringify(seen));
  });
});
