/** What stands around every page, and which page an address shows. */

import { useEffect } from 'preact/hooks';
import { ErrorBoundary, LocationProvider, lazy, Route, Router, useLocation } from 'preact-iso';
import { useInstallation } from './data/live/use-installation.ts';
import { usePrefs } from './data/prefs.ts';
import { HomePage } from './features/home/home.tsx';
import { firstPlaces, morePlaces } from './features/more/more-places.ts';
import { SystemLine } from './features/notifications/system-line.tsx';
import { LiveMark } from './ui/parts/marks.tsx';
import { OfflineLine } from './ui/parts/offline-line.tsx';
import { onlyFor } from './ui/parts/only-for.tsx';
import { useShellWords } from './ui/parts/use-shell-words.ts';
import { applyShade } from './ui/use-shade.ts';

const MorePage = lazy(() => import('./features/more/more-page.tsx').then((page) => page.MorePage));
const PilePage = lazy(() => import('./features/pile/pile-page.tsx').then((page) => page.PilePage));
const WhyPage = lazy(() => import('./features/pile/why-page.tsx').then((page) => page.WhyPage));
const NewPilePage = lazy(() =>
  import('./features/pile/new-pile.tsx').then((page) => onlyFor('keeper', page.NewPilePage)),
);
const ProbesPage = lazy(() => import('./features/probes/probes-page.tsx').then((page) => page.ProbesPage));
const IncomingPage = lazy(() => import('./features/incoming/incoming-page.tsx').then((page) => page.IncomingPage));
const KeysPage = lazy(() => import('./features/keys/keys-page.tsx').then((page) => onlyFor('owner', page.KeysPage)));
const ReachPage = lazy(() =>
  import('./features/start/reach-page.tsx').then((page) => onlyFor('keeper', page.ReachPage)),
);
const WeatherPage = lazy(() =>
  import('./features/weather/weather-page.tsx').then((page) => onlyFor('owner', page.WeatherPage)),
);
const PracticePage = lazy(() => import('./features/practice/practice-page.tsx').then((page) => page.PracticePage));
const PlanPage = lazy(() => import('./features/plan/plan-page.tsx').then((page) => page.PlanPage));
const LayPage = lazy(() => import('./features/plan/lay-page.tsx').then((page) => onlyFor('keeper', page.LayPage)));
const JournalPage = lazy(() => import('./features/journal/journal-page.tsx').then((page) => page.JournalPage));
const BatchesPage = lazy(() => import('./features/batch/batches-page.tsx').then((page) => page.BatchesPage));
const BatchPage = lazy(() => import('./features/batch/batch-page.tsx').then((page) => page.BatchPage));
const LotsPage = lazy(() => import('./features/batch/lots-page.tsx').then((page) => page.LotsPage));
const LotPage = lazy(() => import('./features/batch/lots-page.tsx').then((page) => page.LotPage));
const LineagePage = lazy(() => import('./features/lineage/lineage-page.tsx').then((page) => page.LineagePage));
const RecordPage = lazy(() => import('./features/records/record-page.tsx').then((page) => page.RecordPage));
const RecordsPage = lazy(() => import('./features/records/records-page.tsx').then((page) => page.RecordsPage));
const LabelPage = lazy(() => import('./features/records/label-page.tsx').then((page) => page.LabelPage));
const ImportPage = lazy(() =>
  import('./features/import/import-page.tsx').then((page) => onlyFor('keeper', page.ImportPage)),
);
const SeasonsPage = lazy(() => import('./features/seasons/season-page.tsx').then((page) => page.SeasonsPage));
const EarlierPage = lazy(() =>
  import('./features/seasons/earlier-page.tsx').then((page) => onlyFor('keeper', page.EarlierPage)),
);
const LikePage = lazy(() => import('./features/seasons/like-page.tsx').then((page) => page.LikePage));
const SignInPage = lazy(() => import('./features/people/sign-in-page.tsx').then((page) => page.SignInPage));
const LinkPage = lazy(() => import('./features/people/link-page.tsx').then((page) => page.LinkPage));
const PeoplePage = lazy(() => import('./features/people/people-page.tsx').then((page) => page.PeoplePage));
const AccountPage = lazy(() => import('./features/people/account-page.tsx').then((page) => page.AccountPage));
const WhoDidWhatPage = lazy(() => import('./features/people/audit-page.tsx').then((page) => page.WhoDidWhatPage));
const KeepingPage = lazy(() => import('./features/retention/retention-page.tsx').then((page) => page.KeepingPage));
const SettingsPage = lazy(() => import('./features/settings/settings-page.tsx').then((page) => page.SettingsPage));
const NotificationsPage = lazy(() =>
  import('./features/notifications/notifications-page.tsx').then((page) => page.NotificationsPage),
);
const HelpPage = lazy(() => import('./features/help/help-page.tsx').then((page) => page.HelpPage));
const OutboxLine = lazy(() => import('./features/journal/outbox-line.tsx').then((line) => line.OutboxLine));
const DeviceLanguage = lazy(() =>
  import('./features/settings/device-language.tsx').then((choice) => choice.DeviceLanguage),
);
const HelpLink = lazy(() => import('./features/help/help-link.tsx').then((link) => link.HelpLink));
const SearchPage = lazy(() => import('./features/search/search-page.tsx').then((page) => page.SearchPage));
const SearchLink = lazy(() => import('./features/search/search-link.tsx').then((link) => link.SearchLink));
const NoPage = lazy(() => import('./ui/parts/no-page.tsx').then((page) => page.NoPage));

export function App() {
  const { text } = useShellWords();
  const { shade } = usePrefs();
  useEffect(() => applyShade(shade), [shade]);
  return (
    <LocationProvider scope={/^\/(?!api\/|metrics)/}>
      <a class="skip" href="#main">
        {text('page-shell.skip')}
      </a>
      <Masthead />
      <SystemLine />
      <OfflineLine />
      <ErrorBoundary>
        <OutboxLine />
      </ErrorBoundary>
      <main id="main" tabIndex={-1}>
        <Pages />
      </main>
      <Announcer />
      <footer class="foot">
        <p>{text('page-shell.foot')}</p>
        <ErrorBoundary>
          <DeviceLanguage />
        </ErrorBoundary>
      </footer>
    </LocationProvider>
  );
}

/** Whoever holds a link comes in by it, signed in or not. */
const linkAddresses = ['/setup', '/invitation', '/reset'];

/** Where anybody may read, signed in or not. */
const helpAddress = '/help/:chapter?';

/** Which page an address shows; the first that fits. */
const pages = [
  ['/people', PeoplePage],
  ['/account', AccountPage],
  ['/who-did-what', WhoDidWhatPage],
  ['/', HomePage],
  ['/piles/new', NewPilePage],
  ['/piles/:id', PilePage],
  ['/piles/:id/why/:kind?', WhyPage],
  ['/piles/:id/journal', JournalPage],
  ['/piles/:id/label', LabelPage],
  ['/batches', BatchesPage],
  ['/batches/:id', BatchPage],
  ['/batches/:id/record', RecordPage],
  ['/lots', LotsPage],
  ['/lots/:id', LotPage],
  ['/lineage', LineagePage],
  ['/records', RecordsPage],
  ['/import', ImportPage],
  ['/seasons', SeasonsPage],
  ['/seasons/earlier', EarlierPage],
  ['/seasons/like/:id', LikePage],
  ['/probes', ProbesPage],
  ['/incoming', IncomingPage],
  ['/keys', KeysPage],
  ['/reach', ReachPage],
  ['/practice/:id?', PracticePage],
  ['/plan/lay', LayPage],
  ['/plan/:what?', PlanPage],
  ['/weather', WeatherPage],
  ['/retention', KeepingPage],
  ['/notifications', NotificationsPage],
  ['/settings', SettingsPage],
  ['/search', SearchPage],
  ['/more', MorePage],
] as const;

function Pages() {
  const isLocked = useInstallation((installation) => installation.link === 'locked');
  // Until somebody signs in all else waits, at its address.
  return (
    <ErrorBoundary onError={(error) => console.error(error)}>
      <Router>
        {linkAddresses.map((path) => (
          <Route key={path} path={path} component={LinkPage} />
        ))}
        <Route path={helpAddress} component={HelpPage} />
        {(isLocked ? [] : pages).map(([path, Page]) => (
          <Route key={path} path={path} component={Page} />
        ))}
        <Route default component={isLocked ? SignInPage : NoPage} />
      </Router>
    </ErrorBoundary>
  );
}

/** On a phone there is room for five in a row: `More` leads to those that are rarer there. */
const rareOnPhones: readonly string[] = ['batches', 'probes'];

const places = [
  ['/', 'piles', ['/piles']],
  ['/plan', 'plan', []],
  ['/batches', 'batches', ['/lots', '/lineage']],
  ['/seasons', 'seasons', []],
  ['/probes', 'probes', []],
  ['/practice', 'practice', []],
  ['/more', 'more', morePlaces.filter((place) => !firstPlaces.includes(place)).map((place) => `/${place}`)],
] as const;

function Masthead() {
  const { text } = useShellWords();
  const { path } = useLocation();
  const isHere = (href: string, within: readonly string[]) =>
    path === href || [...within, ...(href === '/' ? [] : [href])].some((one) => path.startsWith(one));
  return (
    <header class="masthead">
      <a class="wordmark" href="/">
        Branhearth
      </a>
      <nav aria-label={text('page-shell.nav')}>
        <ul>
          {places.map(([href, name, within]) => (
            <li key={href} class={rareOnPhones.includes(name) ? 'rare-place' : undefined}>
              <a href={href} aria-current={isHere(href, within) ? 'page' : undefined}>
                {text(`page-shell.nav.${name}`)}
              </a>
            </li>
          ))}
        </ul>
      </nav>
      <LiveMark />
      <ErrorBoundary>
        <SearchLink />
      </ErrorBoundary>
      <ErrorBoundary>
        <HelpLink />
      </ErrorBoundary>
    </header>
  );
}

/** Says new warnings aloud, and nothing else. */
function Announcer() {
  const { text } = useShellWords();
  const announcement = useInstallation((installation) => installation.announcement);
  return (
    <div class="unseen" role="log" aria-live="assertive" aria-label={text('page-shell.announcer')}>
      {announcement}
    </div>
  );
}
