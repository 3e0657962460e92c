// A server and a browser for the page's tests. With SOWTIDE_BIN the real program answers; else the stand-in with
// made-up answers.

import assert from 'node:assert/strict';
import { spawn } from 'node:child_process';
import { after, before } from 'node:test';
import { chromium } from 'playwright-core';
import { startMock } from '../mock/server.mjs';
import { kToday, makeGarden } from './garden.mjs';

const kChromium = process.env.CHROMIUM ?? '/usr/bin/chromium';
const kArgs = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

export const kWidths = [1280, 360];

/** Until so many entries wait in the outbox of the page's device. */
export const waitingAre = (page, count) =>
  page.waitForFunction(
    (wanted) =>
      JSON.parse(localStorage.getItem('sowtide.outbox') ?? '{"waiting":[]}').waiting.length === wanted,
    count,
  );

/** How the page knows a piece of today's work (domain/todaysWork.ts). */
export const keyOf = (task) => `${task.kind}/${task.stand}/${task.target ?? ''}/${task.place}/${task.due}`;
export const cardOf = (page, task) => page.locator(`[data-task=${JSON.stringify(keyOf(task))}]`);
/** Opens what holds several cards of today's work. */
export const openCards = (page) =>
  page
    .locator('main details:has([data-task])')
    .evaluateAll((all) => all.forEach((each) => (each.open = true)));

/** Writes entries into the log of a server, past the page. */
export async function logEvents(url, events) {
  const answer = await fetch(`${url}/api/events`, {
    method: 'POST',
    headers: { 'Content-Type': 'application/json' },
    body: JSON.stringify(events),
  });
  assert.ok(answer.ok, await answer.text());
}

/** SOWTIDE_WEB names a built web app, for a program that was built before the page. */
export const webOf = () => (process.env.SOWTIDE_WEB ? ['--web', process.env.SOWTIDE_WEB] : []);

/** Starts the real program on a garden file; resolves once it says where it listens. */
export function startProgram(binary, garden, today, port = '0') {
  const child = spawn(binary, ['serve', garden, '--port', port, '--date', today, ...webOf()], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  return new Promise((resolve, reject) => {
    let said = '';
    child.stdout.on('data', (chunk) => {
      said += chunk;
      const url = /http:\/\/127\.0\.0\.1:\d+/.exec(said)?.[0];
      if (url)
        resolve({
          url,
          /** After stop: the same garden at the same address. */
          again: () => startProgram(binary, garden, today, new URL(url).port),
          stop: () =>
            new Promise((done) => {
              child.once('exit', done);
              child.kill('SIGTERM');
            }),
        });
    });
    child.once('exit', (code) =>
      reject(new Error(`${binary} ended with ${code} before it listened: ${said}`)),
    );
  });
}

/**
 * The real program where SOWTIDE_BIN names it: on the garden of SOWTIDE_GARDEN (its file is written to), or on one made
 * for the test. Else the stand-in.
 */
export function startServer(name = 'season') {
  const binary = process.env.SOWTIDE_BIN;
  if (!binary) return startMock(name);
  const given = process.env.SOWTIDE_GARDEN;
  return startProgram(binary, given ?? makeGarden(binary), process.env.SOWTIDE_TODAY ?? kToday);
}

export const isReal = () => Boolean(process.env.SOWTIDE_BIN);

export function startBrowser() {
  return chromium.launch({ executablePath: kChromium, args: kArgs });
}

/** A server and a browser for all tests of a file, there once its tests run and closed after them. */
export function serverAndBrowser() {
  const running = {};
  before(async () => {
    running.server = await startServer();
    running.browser = await startBrowser();
  });
  after(async () => {
    await running.browser?.close();
    await running.server?.stop();
  });
  return running;
}

/** A page that records what it must not do: errors, broken policies, requests to anywhere else. */
export async function openPage(browser, url, options = {}) {
  const context = await browser.newContext({
    viewport: { width: 1280, height: 900 },
    locale: 'en-GB',
    ...options,
  });
  // A loaded machine draws slowly; what is tested here is what comes, not how soon.
  context.setDefaultTimeout(120_000);
  const page = await context.newPage();
  const faults = [];
  page.on('pageerror', (error) => faults.push(`error: ${error.message}`));
  page.on('console', (message) => {
    // Said by the driver itself, where a test keeps the worker out so that it can answer in the server's place.
    if (message.text() === 'Service Worker registration blocked by Playwright') return;
    if (message.type() === 'error' || message.type() === 'warning') faults.push(`console: ${message.text()}`);
  });
  page.on('request', (request) => {
    if (!request.url().startsWith(url) && !request.url().startsWith('data:'))
      faults.push(`outside request: ${request.url()}`);
  });
  return { page, faults, context };
}
