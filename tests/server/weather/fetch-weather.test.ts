/** The weather service: off unless chosen, asked by its rules, and harmless whatever it answers. */
import { afterEach, beforeEach, expect, test } from 'vitest';
import { weatherAnswerSchema } from '../../../shared/contracts/weather.ts';
import { msPerHour, msPerMinute } from '../../../shared/units.ts';
import { openNewTestInstallation, type TestInstallation } from '../../helpers/open-test-server.ts';
import { forecastBody, openWeatherDouble, type WeatherDouble } from '../../helpers/weather-double.ts';

// When the documentation's excerpt was made.
const updatedMs = Date.UTC(2020, 5, 10, 13, 4, 26);
let nowMs = 0;
let service: WeatherDouble;
let one: TestInstallation;

beforeEach(async () => {
  nowMs = updatedMs + 2 * msPerMinute;
  service = await openWeatherDouble(updatedMs);
  const clock = { nowMs: () => nowMs, speed: 1 };
  one = await openNewTestInstallation({ WEATHER_URL: service.url }, clock, {}, () => nowMs);
  await one.app.inject({ method: 'POST', url: '/api/sites', payload: { name: 'Saltmere Yard' } });
  await put('/api/notifications/server', { allowedAddresses: [service.address], heartbeatUrl: null });
});
afterEach(async () => {
  await one.closeAndRemove();
  await service.close();
});

const put = (url: string, payload: object) => one.app.inject({ method: 'PUT', url, payload });
const place = { site: 'saltmere-yard', latitude: 60.10449, longitude: 9.58123 };
const choose = async (places: object[] = [place], contact: string | null = 'farm@saltmere.example') => {
  const answer = await put('/api/weather', { contact, places });
  await look();
  return answer;
};
const look = async () => {
  await one.installation.weather.fetchDue(); // one may be under way, from before what was chosen
  await one.installation.weather.fetchDue();
};
const view = async () => weatherAnswerSchema.parse((await one.app.inject('/api/weather')).json());
const kept = () => one.installation.journal.airAhead.get('saltmere-yard');

test('it asks nobody until an owner set a place and a contact', async () => {
  await look();
  expect(service.asked).toEqual([]);
  const nobody = await choose([place], null);
  expect([nobody.statusCode, nobody.json().errors[0].pointer]).toEqual([400, '/contact']);
  const nowhere = await choose([{ ...place, site: 'nowhere' }]);
  expect([nowhere.statusCode, nowhere.json().errors[0].pointer]).toEqual([422, '/places/0/site']);
  expect((await choose([place], 'just me')).statusCode).toBe(400);
  expect(service.asked).toEqual([]);
});

test('it asks for the place rounded to a kilometre, says who asks, and keeps what it is told', async () => {
  expect((await choose()).statusCode).toBe(200);
  expect(service.asked).toMatchObject([
    { query: 'lat=60.1&lon=9.58', headers: { 'user-agent': 'Branhearth/0.0.0-test farm@saltmere.example' } },
  ]);
  const ahead = await kept();
  expect(ahead).toMatchObject({ source: 'MET Norway', issuedMs: updatedMs });
  expect(ahead?.points[0]).toEqual({ atMs: Date.UTC(2020, 5, 10, 13), tempC: 20.7, humidityPct: 48.6 });
  expect(ahead?.points).toHaveLength(76);
  expect(await view()).toMatchObject({ places: [{ latitude: 60.1, longitude: 9.58, problem: null }] });
});

test('it asks hourly at most, later where the answer lasts longer, and only for what has changed', async () => {
  await choose();
  nowMs += msPerHour - msPerMinute;
  await look();
  expect(service.asked).toHaveLength(1);
  nowMs += msPerMinute;
  await look();
  expect(service.asked.at(-1)?.headers['if-modified-since']).toBe('Wed, 10 Jun 2020 13:04:26 GMT');
  expect(await view()).toMatchObject({ places: [{ problem: null, heardAt: new Date(nowMs).toISOString() }] });
  service.updatedMs = nowMs;
  service.temperatureC = 3;
  service.answer = {
    status: 203,
    body: JSON.stringify(forecastBody(nowMs, 3)),
    headers: { Expires: new Date(nowMs + 4 * msPerHour).toUTCString() },
  };
  nowMs += msPerHour;
  await look();
  expect((await kept())?.points.at(-1)?.tempC).toBe(3);
  nowMs += 2.5 * msPerHour;
  await look();
  expect(service.asked).toHaveLength(3);
});

test.each([
  ['a failure', { status: 500, body: 'oops' }, 'HTTP 500: oops', 1],
  ['no JSON', { status: 200, body: '<html>' }, 'its answer is not of the form that it documents', 1],
  [
    'another unit',
    { status: 200, body: JSON.stringify(forecastBody(updatedMs, 20)).replace('celsius', 'kelvin') },
    'form',
    1,
  ],
  [
    'a forecast that has gone by',
    { status: 200, body: JSON.stringify(forecastBody(updatedMs - 1e9, 20)) },
    'beyond now',
    1,
  ],
  ['that too much is asked', { status: 429 }, 'HTTP 429', 24],
  ['a redirect', { status: 302, headers: { Location: 'http://127.0.0.1:1/' } }, 'HTTP 302', 1],
])(
  'where it answers %s, that is said, the last good answer stays, and it is left alone',
  async (_what, answer, says, hours) => {
    await choose();
    const before = await kept();
    service.answer = answer;
    nowMs += msPerHour;
    await look();
    expect((await view()).places[0]?.problem).toContain(says);
    expect(await kept()).toEqual(before);
    nowMs += hours * msPerHour - msPerMinute;
    await look();
    expect(service.asked).toHaveLength(2);
    service.answer = undefined;
    nowMs += msPerMinute;
    await look();
    expect((await view()).places[0]?.problem).toBeNull();
  },
);

test('where nothing answers, or the address is an inner one that nobody allowed, that is said and nothing else', async () => {
  await put('/api/notifications/server', { allowedAddresses: [], heartbeatUrl: null });
  await choose();
  expect(service.asked).toEqual([]);
  expect((await view()).places[0]?.problem).toContain('needs an owner’s leave');
  expect(await kept()).toBeUndefined();
});

test('a start does not make it ask sooner; taking the place away ends it', async () => {
  await choose();
  await one.installation.weather.fetchDue();
  expect(service.asked).toHaveLength(1);
  expect(await one.installation.journal.settings.get('weather-asked')).toContain('"notBeforeMs"');
  await choose([]);
  nowMs += 24 * msPerHour;
  await look();
  expect(service.asked).toHaveLength(1);
});
