/**
 * web/app.tsx: what stands around every page, and which page an address shows.
 */

import { useEffect } from 'preact/hooks';
import { ErrorBoundary, LocationProvider, lazy, Route, Router, useLocation } from 'preact-iso';
import { OutboxLine } from './journal/outbox-line.tsx';
import { OfflineLine } from './live/offline-line.tsx';
import { useHouse } from './live/use-house.ts';
import { HomePage } from './pages/home.tsx';
import { MorePage, morePlaces } from './pages/more.tsx';
import { HouseLine } from './parts/house-line.tsx';
import { LiveMark } from './parts/marks.tsx';
import { onlyFor } from './people/only-for.tsx';
import { usePrefs } from './prefs.ts';
import { applyShade } from './use-shade.ts';

const PilePage = lazy(() => import('./pages/pile.tsx').then((page) => page.PilePage));
const WhyPage = lazy(() => import('./pages/why.tsx').then((page) => page.WhyPage));
const NewPilePage = lazy(() => import('./pages/new-pile.tsx').then((page) => onlyFor('keeper', page.NewPilePage)));
const ProbesPage = lazy(() => import('./pages/probes.tsx').then((page) => page.ProbesPage));
const IncomingPage = lazy(() => import('./pages/incoming.tsx').then((page) => page.IncomingPage));
const KeysPage = lazy(() => import('./keys/keys-page.tsx').then((page) => onlyFor('owner', page.KeysPage)));
const PracticePage = lazy(() => import('./practice/practice-page.tsx').then((page) => page.PracticePage));
const PlanPage = lazy(() => import('./plan/plan-page.tsx').then((page) => page.PlanPage));
const LayPage = lazy(() => import('./plan/lay-page.tsx').then((page) => onlyFor('keeper', page.LayPage)));
const JournalPage = lazy(() => import('./journal/journal-page.tsx').then((page) => page.JournalPage));
const BatchesPage = lazy(() => import('./batch/batches-page.tsx').then((page) => page.BatchesPage));
const BatchPage = lazy(() => import('./batch/batch-page.tsx').then((page) => page.BatchPage));
const LotsPage = lazy(() => import('./batch/lots-page.tsx').then((page) => page.LotsPage));
const LotPage = lazy(() => import('./batch/lots-page.tsx').then((page) => page.LotPage));
const LineagePage = lazy(() => import('./lineage/lineage-page.tsx').then((page) => page.LineagePage));
const RecordPage = lazy(() => import('./records/record-page.tsx').then((page) => page.RecordPage));
const RecordsPage = lazy(() => import('./records/records-page.tsx').then((page) => page.RecordsPage));
const LabelPage = lazy(() => import('./records/label-page.tsx').then((page) => page.LabelPage));
const ImportPage = lazy(() => import('./import/import-page.tsx').then((page) => onlyFor('keeper', page.ImportPage)));
const SeasonsPage = lazy(() => import('./season/season-page.tsx').then((page) => page.SeasonsPage));
const EarlierPage = lazy(() => import('./season/earlier-page.tsx').then((page) => onlyFor('keeper', page.EarlierPage)));
const LikePage = lazy(() => import('./season/like-page.tsx').then((page) => page.LikePage));
const SignInPage = lazy(() => import('./people/sign-in-page.tsx').then((page) => page.SignInPage));
const LinkPage = lazy(() => import('./people/link-page.tsx').then((page) => page.LinkPage));
const PeoplePage = lazy(() => import('./people/people-page.tsx').then((page) => page.PeoplePage));
const AccountPage = lazy(() => import('./people/account-page.tsx').then((page) => page.AccountPage));
const WhoDidWhatPage = lazy(() => import('./people/who-did-what-page.tsx').then((page) => page.WhoDidWhatPage));
const KeepingPage = lazy(() => import('./keeping/keeping-page.tsx').then((page) => page.KeepingPage));
const SettingsPage = lazy(() => import('./pages/settings.tsx').then((page) => page.SettingsPage));
const TellingPage = lazy(() => import('./telling/telling-page.tsx').then((page) => page.TellingPage));
const NoPage = lazy(() => import('./pages/no-page.tsx').then((page) => page.NoPage));

export function App() {
  const { shade } = usePrefs();
  useEffect(() => applyShade(shade), [shade]);
  return (
    <LocationProvider scope={/^\/(?!api\/|metrics)/}>
      <a class="skip" href="#main">
        Go to the content
      </a>
      <Masthead />
      <HouseLine />
      <OfflineLine />
      <OutboxLine />
      <main id="main" tabIndex={-1}>
        <Pages />
      </main>
      <Announcer />
      <footer class="foot">
        <p>Sensors alone never say that a pile is ready or safe: smell and look decide, and local rules stand.</p>
      </footer>
    </LocationProvider>
  );
}

/** Whoever holds a link comes in by it, signed in or not. */
const linkAddresses = ['/setup', '/invitation', '/reset'];

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
  ['/practice/:id?', PracticePage],
  ['/plan/lay', LayPage],
  ['/plan/:what?', PlanPage],
  ['/keeping', KeepingPage],
  ['/telling', TellingPage],
  ['/settings', SettingsPage],
  ['/more', MorePage],
] as const;

function Pages() {
  const isLocked = useHouse((house) => house.link === 'locked');
  // Until somebody signs in all else waits, at its address.
  return (
    <ErrorBoundary onError={(error) => console.error(error)}>
      <Router>
        {linkAddresses.map((path) => (
          <Route key={path} path={path} component={LinkPage} />
        ))}
        {(isLocked ? [] : pages).map(([path, Page]) => (
          <Route key={path} path={path} component={Page} />
        ))}
        <Route default component={isLocked ? SignInPage : NoPage} />
      </Router>
    </ErrorBoundary>
  );
}

const places = [
  ['/', 'Piles', ['/piles']],
  ['/plan', 'Plan', []],
  ['/batches', 'Batches', ['/lots', '/lineage']],
  ['/probes', 'Probes', []],
  ['/more', 'More', morePlaces.map(([href]) => href)],
] as const;

function Masthead() {
  const { path } = useLocation();
  const isHere = (href: string, within: readonly string[]) =>
    path === href || [...within, ...(href === '/' ? [] : [href])].some((one) => path.startsWith(one));
  return (
    <header class="masthead">
      <a class="wordmark" href="/">
        Branhearth
      </a>
      <nav aria-label="Pages">
        <ul>
          {places.map(([href, words, within]) => (
            <li key={href}>
              <a href={href} aria-current={isHere(href, within) ? 'page' : undefined}>
                {words}
              </a>
            </li>
          ))}
        </ul>
      </nav>
      <LiveMark />
    </header>
  );
}

/** Says new warnings aloud, and nothing else. */
function Announcer() {
  const announcement = useHouse((house) => house.announcement);
  return (
    <div class="unseen" role="log" aria-live="assertive" aria-label="New warnings">
      {announcement}
    </div>
  );
}
