/** A second language of a few texts, for this test: whoever reads it loads it, and only they. */
import type { ComponentChildren } from 'preact';
import { LocationProvider, Route, Router } from 'preact-iso';
import { render as toText } from 'preact-render-to-string';
import { afterEach, beforeAll, expect, test, vi } from 'vitest';
import { plainReader } from '../../shared/messages/format.ts';
import { pageJournalTexts } from '../../shared/messages/made/en/page-journal.ts';
import { pageWelcomeTexts } from '../../shared/messages/made/en/page-welcome.ts';
import { message } from '../../shared/messages/message.ts';
import { rendererOf } from '../../shared/messages/renderer.ts';
import { requestHeaders } from '../../web/src/data/client.ts';
import { followLanguage, languageWanted, otherLanguage } from '../../web/src/data/language.ts';
import { pageWords, usePageTexts } from '../../web/src/data/live/page-texts.ts';
import { useReader } from '../../web/src/data/live/use-installation.ts';
import { useList } from '../../web/src/data/live/use-list.ts';
import { useSay } from '../../web/src/data/live/use-say.ts';
import { me } from '../../web/src/data/me.ts';
import { changePrefs } from '../../web/src/data/prefs.ts';
import { textNow } from '../../web/src/data/text-now.ts';
import { HelpPage } from '../../web/src/features/help/help-page.tsx';
import { DeviceLanguage } from '../../web/src/features/settings/device-language.tsx';
import { SettingsPage } from '../../web/src/features/settings/settings-page.tsx';
import { actName } from '../../web/src/ui/format/act-name.ts';
import { ageWords } from '../../web/src/ui/format/age.ts';
import { fullDay } from '../../web/src/ui/format/full-date.ts';
import { longDay, shortDay } from '../../web/src/ui/format/local-time.ts';
import { warningTitle, warningWords } from '../../web/src/ui/format/words.ts';
import { usePositionNames } from '../../web/src/ui/mound/use-position-names.ts';
import { until } from '../helpers/until.ts';

const loads = vi.hoisted(() => ({ count: 0, languages: ['en', 'de'], machineMade: ['de'] }));
vi.mock('../../shared/messages/made/languages.ts', () => loads);
vi.mock('../../shared/messages/made/loaders.ts', () => ({
  loaders: {
    de: async () => {
      loads.count += 1;
      return {
        texts: {
          'say.no-batch': 'Hier liegt nichts.',
          'warnings.value.now': 'innen {tempC}',
          'condition.drying.name': 'Trocknet',
          'person.here': 'Dieser Rechner',
          'entry.turned': 'Gewendet',
        },
        pages: {
          'page-welcome.practise-meanwhile': ['Bis dahin ', ['<', 'link', 'üben'], '.'],
          'page-mound.place': [['position', { core: 'Mitte', edge: 'Rand', air: 'Luft', other: '' }, 0]],
          'page-words.ago': ['vor ', ['lengthText']],
          'page-words.length': [['unit', { hour: [['lengthCount'], ' Std.'], other: '' }, 0]],
          'page-words.warning': [['warningText'], ' (', ['position', { core: 'Mitte', other: '' }, 0], ')'],
          'page-words.day': ['Tag ', ['dayNumber']],
          'page-words.no-answer': 'Keine Antwort.',
          'page-journal.entry.by': ['von ', ['personName']],
          'page-language.machine-made': 'Maschinell übersetzt.',
        },
      };
    },
  },
}));

const english = rendererOf({
  'say.no-batch': 'No batch lies here now.',
  'say.next.wait': 'Wait.',
  'warnings.value.now': 'inside {tempC}',
});
function Said({ what }: { readonly what: 'page' | 'found' | 'kinds' }) {
  const say = useSay(english);
  const value = message('warnings.value.now', { isFirst: false, position: 'core', tempC: 51.5 });
  const { rich } = usePageTexts(pageWelcomeTexts);
  const link = (inner: ComponentChildren) => <a href="/practice">{inner}</a>;
  const page = [rich('page-welcome.practise-meanwhile', { link }), ' ', rich('page-welcome.copy')];
  if (what === 'page') return <p>{page}</p>;
  if (what === 'kinds') return <p>{[warningWords('drying'), warningWords('chilled')].join(' ')}</p>;
  return <p>{[message('say.no-batch'), message('say.next.wait'), value].map(say).join(' ')}</p>;
}
const said = (what: 'page' | 'found' | 'kinds' = 'found') => toText(<Said what={what} />).replaceAll('\u00a0', ' ');

const known = { hasOwner: true, hasToken: false };
const kim = { id: 'kim', name: 'Kim', role: 'keeper', via: 'session' } as const;
beforeAll(followLanguage);
afterEach(() => me.set(null));

test('whoever reads English loads no other language', () => {
  me.set({ ...known, person: kim });
  expect([languageWanted(), loads.count]).toEqual(['en', 0]);
  expect(said()).toBe('<p>No batch lies here now. Wait. inside 51.5 °C</p>');
});

test('a page that waits for its language begins in it, and not in English', async () => {
  vi.stubGlobal('navigator', { languages: ['de-AT', 'en'] });
  await followLanguage();
  expect(otherLanguage()?.language).toBe('de');
  vi.unstubAllGlobals();
  me.set({ ...known, person: kim });
  await until('English', async () => (otherLanguage() === null ? true : undefined));
});

test('names, ages, days and faults are worded in it as well, wherever they are made', async () => {
  const worded = () => [
    warningTitle('drying', 'core'),
    ageWords(3 * 3_600_000),
    actName('turned'),
    shortDay(25 * 3_600_000, { timeZone: 'UTC', hour12: false, dayOneMs: 0 }),
    textNow('page-words.no-answer'),
    pageWords(pageJournalTexts, plainReader(0), otherLanguage()).text('page-journal.entry.by', {
      personName: 'This machine',
    }),
  ];
  expect(worded()).toEqual([
    'Drying, core',
    '3 h ago',
    'Turned',
    'day 2',
    'Branhearth does not answer. Is it running, and is this device on the same network?',
    'by This machine',
  ]);
  me.set({ ...known, person: { ...kim, language: 'de' } });
  await until('German', async () => (otherLanguage() === null ? undefined : true));
  expect(worded()).toEqual([
    'Trocknet (Mitte)',
    'vor 3 Std.',
    'Gewendet',
    'Tag 2',
    'Keine Antwort.',
    'von Dieser Rechner',
  ]);
  me.set({ ...known, person: kim });
  await until('English', async () => (otherLanguage() === null ? true : undefined));
});

test('whoever chose a language reads it, with its numbers; what it lacks is in English', async () => {
  me.set({ ...known, person: { ...kim, language: 'de' } });
  const inGerman = await until('German', async () => (said().includes('liegt') ? said() : undefined));
  expect(inGerman).toBe('<p>Hier liegt nichts. Wait. innen 51,5 °C</p>');
  expect(said('kinds')).toBe('<p>Trocknet Chilled</p>');
  expect(said('page')).toBe('<p>Bis dahin <a href="/practice">üben</a>. Copy</p>');
  me.set({ ...known, person: kim });
  expect(await until('English', async () => (said().includes('inside') ? said() : undefined), 2_000)).toContain('51.5');
});

function Places() {
  const nameOf = usePositionNames();
  const listed = useList();
  const reader = { ...useReader(), timeZone: 'UTC' };
  const atMs = Date.UTC(2031, 4, 2);
  const places = listed((['core', 'edge', 'air'] as const).map(nameOf));
  return <p>{[places, longDay(atMs, reader), fullDay(atMs, reader)].join('; ')}</p>;
}

test('positions, lists and days are in the language that is read', async () => {
  me.set({ ...known, person: kim });
  await until('English', async () => said().includes('inside') || undefined);
  expect(toText(<Places />)).toBe('<p>core, edge and air; Friday 2 May; 2 May 2031</p>');
  me.set({ ...known, person: { ...kim, language: 'de' } });
  await until('German', async () => said().includes('liegt') || undefined);
  expect(toText(<Places />)).toBe('<p>Mitte, Rand und Luft; Freitag 2. Mai; 2. Mai 2031</p>');
});

test('where nobody signs in a device has a language of its own, and asks the server for it; whoever signs in and chose reads theirs', () => {
  const foot = () => toText(<DeviceLanguage />);
  me.set({ ...known, person: null });
  expect(languageWanted()).toBe('en');
  expect(foot()).toContain('Deutsch');
  changePrefs({ language: 'de' });
  expect([languageWanted(), requestHeaders()]).toEqual(['de', { 'accept-language': 'de' }]);
  me.set({ ...known, person: { ...kim, language: 'en' } });
  expect([languageWanted(), foot()]).toEqual(['en', '']);
  changePrefs({ language: '' });
  expect(requestHeaders()).toEqual({});
});

test('settings offer the languages that there are, to whoever is signed in', () => {
  expect(toText(<SettingsPage />)).not.toContain('Deutsch');
  me.set({ ...known, person: kim });
  expect(toText(<SettingsPage />)).toMatch(/As the browser asks for.*English.*Deutsch/);
});

test('while there is one language, settings offer none', () => {
  me.set({ ...known, person: kim });
  loads.languages = ['en'];
  try {
    expect(toText(<SettingsPage />)).not.toContain('As the browser asks for');
  } finally {
    loads.languages = ['en', 'de'];
  }
});

test.each([
  ['settings', <Route key="settings" path="/help" component={SettingsPage} />],
  ['the first page of the help', <Route key="help" path="/help" component={HelpPage} />],
])('%s mark a translation that no grower has read, in its own words, until one has', async (_where, page) => {
  vi.stubGlobal('location', new URL('http://localhost/help'));
  const shown = () =>
    toText(
      <LocationProvider>
        <Router>{[page]}</Router>
      </LocationProvider>,
    );
  me.set({ ...known, person: kim });
  await until('English', async () => said().includes('inside') || undefined);
  expect(shown()).not.toMatch(/Maschinell|by machine/);
  me.set({ ...known, person: { ...kim, language: 'de' } });
  await until('the mark', async () => shown().includes('Maschinell übersetzt.') || undefined);
  loads.machineMade = [];
  try {
    expect(shown()).not.toContain('Maschinell');
  } finally {
    loads.machineMade = ['de'];
    vi.unstubAllGlobals();
  }
});
