/** Every pile with its sentence, the most pressing first; or a welcome when there is none. */
import type { PileSummary } from '../../../../shared/contracts/piles.ts';
import { useInstallation, useReader, useServerNow } from '../../data/live/use-installation.ts';
import { useSaidSoon } from '../../data/live/use-said-soon.ts';
import { ageWords, batchDay } from '../../ui/format/age.ts';
import { clockTime, longDay } from '../../ui/format/local-time.ts';
import { capital, counted, phaseNames, stageNames } from '../../ui/format/words.ts';
import { Mound } from '../../ui/mound/mound.tsx';
import { MoundKey } from '../../ui/mound/mound-key.tsx';
import { ToneMark } from '../../ui/parts/marks.tsx';
import { May } from '../../ui/parts/only-for.tsx';
import { usePage } from '../../ui/parts/use-page.ts';
import { silencedSentence } from '../pile/alarm-words.ts';
import { isCoreMeasured } from '../pile/is-core-measured.ts';
import { isStageKnown, TroubleLine } from '../pile/trouble-note.tsx';
import { asLastHeard, groupBySite, openingSentence, unacknowledgedCount } from './home-order.ts';
import { Welcome } from './welcome.tsx';
import './home.css';

export function HomePage() {
  const piles = useInstallation((installation) => installation.piles);
  if (piles === null) return <Waiting />;
  return piles.length === 0 ? <Welcome /> : <Piles piles={piles} />;
}

function Waiting() {
  const heading = usePage('');
  const isLost = useInstallation((installation) => installation.link === 'lost');
  return (
    <div class="page">
      <h1 ref={heading} tabIndex={-1}>
        {isLost ? 'Branhearth does not answer yet.' : 'Looking at the piles…'}
      </h1>
      {isLost && (
        <p class="lead">The page keeps trying. See that the program runs and that this device is on its network.</p>
      )}
    </div>
  );
}

function Piles({ piles }: { readonly piles: readonly PileSummary[] }) {
  const heading = usePage('Piles');
  const isLost = useInstallation((installation) => installation.link === 'lost');
  const sites = useInstallation((installation) => installation.sites);
  const nowMs = useServerNow();
  const reader = useReader();
  return (
    <div class="page">
      <div class="opening">
        <p class="dateline">
          {longDay(nowMs, reader)}, {clockTime(nowMs, reader)}
        </p>
        <h1 ref={heading} tabIndex={-1}>
          {isLost ? asLastHeard(openingSentence(piles)) : openingSentence(piles)}
        </h1>
        <UnclaimedLine />
      </div>
      {groupBySite(piles, sites).map((site) => (
        <section class="site" key={site.id} aria-labelledby={`site-${site.id}`}>
          <div class="site-name">
            <h2 id={`site-${site.id}`}>{site.name}</h2>
            <p>{counted(site.piles.length, 'pile')}</p>
          </div>
          <ol class="entries">
            {site.piles.map((pile) => (
              <Entry key={pile.id} pile={pile} />
            ))}
          </ol>
        </section>
      ))}
      <div class="below-entries">
        <MoundKey />
        <May to="keeper">
          <p class="make-more">
            <a class="button" href="/piles/new">
              Lay another pile
            </a>
          </p>
        </May>
      </div>
    </div>
  );
}

function Entry({ pile }: { readonly pile: PileSummary }) {
  const said = useSaidSoon(pile.site);
  const nowMs = useServerNow();
  const reader = useReader(pile.site);
  const waiting = unacknowledgedCount(pile);
  const silenced = silencedSentence(pile.alarms, nowMs, reader);
  return (
    <li class="entry">
      <article aria-labelledby={`pile-${pile.id}`}>
        <header class="entry-head">
          <h3 id={`pile-${pile.id}`}>
            <a href={`/piles/${pile.id}`}>{pile.name}</a>
          </h3>
          <ToneMark tone={pile.tone} />
        </header>
        <p class="sentence">{said(pile, 'condition')}</p>
        {pile.next && <p class="next">{said(pile, 'next')}</p>}
        <TroubleLine pile={pile} />
        {waiting > 0 && <p class="waiting">{counted(waiting, 'warning')} unacknowledged</p>}
        {silenced && <p class="facts">{silenced}</p>}
        <EntryFacts pile={pile} />
        <div class="entry-mound">
          <Mound pile={pile} />
        </div>
      </article>
    </li>
  );
}

function EntryFacts({ pile }: { readonly pile: PileSummary }) {
  const nowMs = useServerNow();
  const { batch } = pile;
  const newestMs = Math.max(...Object.values(pile.positions).map((now) => (now?.at ? Date.parse(now.at) : -Infinity)));
  const phase = batch && isCoreMeasured(pile) ? `, ${phaseNames[batch.phase]}` : '';
  const stand = batch ? `, day ${batchDay(Date.parse(batch.startedAt), nowMs)}${phase}` : '';
  return (
    <p class="facts">
      {isStageKnown(pile) && `${capital(stageNames[pile.stage])}${stand}.`}
      {Number.isFinite(newestMs) && ` Last reading ${ageWords(nowMs - newestMs)}.`}
    </p>
  );
}

function UnclaimedLine() {
  const { unclaimed } = useInstallation((installation) => installation.probeCounts);
  if (unclaimed === 0) return null;
  return (
    <p class="lead">
      {unclaimed === 1 ? 'A probe is talking' : `${unclaimed} probes are talking`} that{' '}
      {unclaimed === 1 ? 'belongs' : 'belong'} to no pile yet.{' '}
      <a href="/probes">
        <May to="keeper" otherwise="See">
          Claim
        </May>{' '}
        {unclaimed === 1 ? 'it' : 'them'}
      </a>
    </p>
  );
}
