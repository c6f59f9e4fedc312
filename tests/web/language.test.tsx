/** In which language a page is to be, who is offered which, and what marks a translation that no grower has read. */
import { LocationProvider, Route, Router } from 'preact-iso';
import { render as toText } from 'preact-render-to-string';
import { afterEach, expect, test, vi } from 'vitest';
import { plainReader } from '../../shared/messages/format.ts';
import { pageJournalTexts } from '../../shared/messages/made/en/page-journal.ts';
import { personTexts } from '../../shared/messages/made/en/person.ts';
import { namedIn } from '../../shared/messages/nameless.ts';
import { requestHeaders } from '../../web/src/data/client.ts';
import { languageWanted } from '../../web/src/data/language.ts';
import { pageWords } from '../../web/src/data/live/page-texts.ts';
import { me } from '../../web/src/data/me.ts';
import { changePrefs } from '../../web/src/data/prefs.ts';
import { HelpPage } from '../../web/src/features/help/help-page.tsx';
import { DeviceLanguage } from '../../web/src/features/settings/device-language.tsx';
import { SettingsPage } from '../../web/src/features/settings/settings-page.tsx';

const offered = vi.hoisted(() => ({ languages: ['en', 'de'], machineMade: ['de'] as string[] }));
vi.mock('../../shared/messages/made/languages.ts', () => offered);

const known = { hasOwner: true, hasToken: false };
const kim = { id: 'kim', name: 'Kim', role: 'keeper', via: 'session' } as const;
afterEach(() => {
  me.set(null);
  vi.unstubAllGlobals();
});

test('a page is to be as the person chose, else as this device did, else as its browser asks for', () => {
  vi.stubGlobal('navigator', { languages: ['de-AT', 'en'] });
  expect(languageWanted()).toBe('de');
  changePrefs({ language: 'en' });
  expect(languageWanted()).toBe('en');
  me.set({ ...known, person: { ...kim, language: 'de' } });
  expect(languageWanted()).toBe('de');
  changePrefs({ language: '' });
  me.set({ ...known, person: { ...kim, language: 'en' } });
  expect(languageWanted()).toBe('en');
});

test('a page asks the server in its own language', () => {
  expect(requestHeaders()).toEqual({ 'accept-language': 'en' });
});

test('whoever acts without a name is named in the language that is read', () => {
  const words = pageWords(pageJournalTexts, plainReader(0));
  expect(words.text('page-journal.entry.by', { personName: 'This machine' })).toBe('by This machine');
  const german = { ...personTexts, 'person.here': 'Dieser Rechner' };
  expect(namedIn('personName', 'This machine', german)).toBe('Dieser Rechner');
  expect(namedIn('pileName', 'This machine', german)).toBe('This machine');
});

test('where nobody signs in a device has a language of its own; whoever signs in chooses for all of theirs', () => {
  const foot = () => toText(<DeviceLanguage />);
  me.set({ ...known, person: null });
  expect(foot()).toContain('Deutsch');
  me.set({ ...known, person: kim });
  expect(foot()).toBe('');
});

test('settings offer the languages that there are, to whoever is signed in', () => {
  expect(toText(<SettingsPage />)).not.toContain('Deutsch');
  me.set({ ...known, person: kim });
  expect(toText(<SettingsPage />)).toMatch(/As the browser asks for.*English.*Deutsch/);
});

test('while there is one language, settings offer none', () => {
  me.set({ ...known, person: kim });
  offered.languages = ['en'];
  try {
    expect(toText(<SettingsPage />)).not.toContain('As the browser asks for');
  } finally {
    offered.languages = ['en', 'de'];
  }
});

test.each([
  ['settings', <Route key="settings" path="/help" component={SettingsPage} />],
  ['the first page of the help', <Route key="help" path="/help" component={HelpPage} />],
])('%s mark a translation that no grower has read, until one has', (_where, page) => {
  vi.stubGlobal('location', new URL('http://localhost/help'));
  const shown = () =>
    toText(
      <LocationProvider>
        <Router>{[page]}</Router>
      </LocationProvider>,
    );
  me.set({ ...known, person: kim });
  expect(shown()).not.toContain('by machine');
  offered.machineMade = ['en'];
  try {
    expect(shown()).toContain('by machine');
  } finally {
    offered.machineMade = ['de'];
  }
});
