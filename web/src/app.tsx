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

function Pages() {
  const isLocked = useHouse((house) => house.link === 'locked');
  // Whoever holds a link comes in by it, signed in or not; all else waits, at its address, for somebody to sign in.
  if (isLocked) {
    return (
      <ErrorBoundary onError={(error) => console.error(error)}>
        <Router>
          <Route path="/setup" component={LinkPage} />
          <Route path="/invitation" component={LinkPage} />
          <Route path="/reset" component={LinkPage} />
          <Route default component={SignInPage} />
        </Router>
      </ErrorBoundary>
    );
  }
  return (
    <ErrorBoundary onError={(error) => console.error(error)}>
      <Router>
        <Route path="/setup" component={LinkPage} />
        <Route path="/invitation" component={LinkPage} />
        <Route path="/reset" component={LinkPage} />
        <Route path="/people" component={PeoplePage} />
        <Route path="/account" component={AccountPage} />
        <Route path="/who-did-what" component={WhoDidWhatPage} />
        <Route path="/" component={HomePage} />
        <Route path="/piles/new" component={NewPilePage} />
        <Route path="/piles/:id" component={PilePage} />
        <Route path="/piles/:id/why/:kind?" component={WhyPage} />
        <Route path="/piles/:id/journal" component={JournalPage} />
        <Route path="/piles/:id/label" component={LabelPage} />
        <Route path="/batches" component={BatchesPage} />
        <Route path="/batches/:id" component={BatchPage} />
        <Route path="/batches/:id/record" component={RecordPage} />
        <Route path="/lots" component={LotsPage} />
        <Route path="/lots/:id" component={LotPage} />
        <Route path="/lineage" component={LineagePage} />
        <Route path="/records" component={RecordsPage} />
        <Route path="/import" component={ImportPage} />
        <Route path="/seasons" component={SeasonsPage} />
        <Route path="/seasons/earlier" component={EarlierPage} />
        <Route path="/seasons/like/:id" component={LikePage} />
        <Route path="/probes" component={ProbesPage} />
        <Route path="/incoming" component={IncomingPage} />
        <Route path="/keys" component={KeysPage} />
        <Route path="/practice/:id?" component={PracticePage} />
        <Route path="/plan/lay" component={LayPage} />
        <Route path="/plan/:what?" component={PlanPage} />
        <Route path="/keeping" component={KeepingPage} />
        <Route path="/telling" component={TellingPage} />
        <Route path="/settings" component={SettingsPage} />
        <Route path="/more" component={MorePage} />
        <Route default component={NoPage} />
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
