/** Every pile with its sentence, the most pressing first; or a welcome when there is none. */
import type { ComponentChildren } from 'preact';
import type { PileSummary } from '../../../../shared/contracts/piles.ts';
import { pageHomeTexts } from '../../../../shared/messages/made/en/page-home.ts';
import { usePageTexts } from '../../data/live/page-texts.ts';
import { useInstallation, useReader, useServerNow } from '../../data/live/use-installation.ts';
import { useSaidSoon } from '../../data/live/use-said-soon.ts';
import { useMay } from '../../data/me.ts';
import { ageWords, batchDay } from '../../ui/format/age.ts';
import { clockTime, longDay } from '../../ui/format/local-time.ts';
import { Mound } from '../../ui/mound/mound.tsx';
import { MoundKey } from '../../ui/mound/mound-key.tsx';
import { ToneMark } from '../../ui/parts/marks.tsx';
import { May } from '../../ui/parts/only-for.tsx';
import { usePage } from '../../ui/parts/use-page.ts';
import { silencedSentence } from '../pile/alarm-words.ts';
import { isCoreMeasured } from '../pile/is-core-measured.ts';
import { isStageKnown, TroubleLine } from '../pile/trouble-note.tsx';
import { groupBySite, openingOf, unacknowledgedCount } from './home-order.ts';
import { openingSentence } from './opening-sentence.ts';
import { WelcomeSoon } from './welcome-soon.tsx';
import './home.css';

export function HomePage() {
  const piles = useInstallation((installation) => installation.piles);
  if (piles === null) return <Waiting />;
  return piles.length === 0 ? <WelcomeSoon meanwhile={<Waiting />} /> : <Piles piles={piles} />;
}

function Waiting() {
  const heading = usePage('');
  const { text } = usePageTexts(pageHomeTexts);
  const isLost = useInstallation((installation) => installation.link === 'lost');
  return (
    <div class="page">
      <h1 ref={heading} tabIndex={-1}>
        {isLost ? text('page-home.no-answer') : text('page-home.looking')}
      </h1>
      {isLost && <p class="lead">{text('page-home.no-answer.hint')}</p>}
    </div>
  );
}

function Piles({ piles }: { readonly piles: readonly PileSummary[] }) {
  const words = usePageTexts(pageHomeTexts);
  const { text } = words;
  const heading = usePage(text('page-home.title'));
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
          {openingSentence(openingOf(piles), words, isLost)}
        </h1>
        <UnclaimedLine />
      </div>
      {groupBySite(piles, sites).map((site) => (
        <section class="site" key={site.id} aria-labelledby={`site-${site.id}`}>
          <div class="site-name">
            <h2 id={`site-${site.id}`}>{site.name}</h2>
            <p>{text('page-home.piles', { pileCount: site.piles.length })}</p>
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
              {text('page-home.lay-another')}
            </a>
          </p>
        </May>
      </div>
    </div>
  );
}

function Entry({ pile }: { readonly pile: PileSummary }) {
  const said = useSaidSoon(pile.site);
  const { text } = usePageTexts(pageHomeTexts);
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
        {waiting > 0 && <p class="waiting">{text('page-home.unacknowledged', { alarmCount: waiting })}</p>}
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
  const { text } = usePageTexts(pageHomeTexts);
  const { batch, stage } = pile;
  const newestMs = Math.max(...Object.values(pile.positions).map((now) => (now?.at ? Date.parse(now.at) : -Infinity)));
  const stand = batch
    ? text('page-home.stage-day', {
        stage,
        dayCount: batchDay(Date.parse(batch.startedAt), nowMs),
        phase: isCoreMeasured(pile) ? batch.phase : 'other',
      })
    : text('page-home.stage', { stage });
  return (
    <p class="facts">
      {isStageKnown(pile) && stand}
      {Number.isFinite(newestMs) && ` ${text('page-home.last-reading', { ageText: ageWords(nowMs - newestMs) })}`}
    </p>
  );
}

function UnclaimedLine() {
  const { unclaimed } = useInstallation((installation) => installation.probeCounts);
  const { rich } = usePageTexts(pageHomeTexts);
  const mayClaim = useMay('keeper');
  if (unclaimed === 0) return null;
  const link = (inner: ComponentChildren) => <a href="/probes">{inner}</a>;
  return <p class="lead">{rich('page-home.unclaimed', { probeCount: unclaimed, mayClaim, link })}</p>;
}
