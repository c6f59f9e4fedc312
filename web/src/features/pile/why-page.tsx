/** Why a pile's page says what it says: all kinds at a glance, or one of them down to its readings. */
import { useRoute } from 'preact-iso';
import { isConditionKind } from '../../../../shared/conditions/kinds.ts';
import type { PileDetail } from '../../../../shared/contracts/piles.ts';
import { meaningTexts } from '../../../../shared/messages/made/en/meaning.ts';
import type { WarningKind } from '../../../../shared/warning.ts';
import { useList } from '../../data/live/use-list.ts';
import { useSaid, useSay } from '../../data/live/use-say.ts';
import { renderPile } from '../../ui/format/render-pile.ts';
import { capital, warningWords } from '../../ui/format/words.ts';
import { usePositionNames } from '../../ui/mound/use-position-names.ts';
import { NoPage } from '../../ui/parts/no-page.tsx';
import { Part } from '../../ui/parts/part.tsx';
import { usePage } from '../../ui/parts/use-page.ts';
import { sightLines } from './evidence-groups.ts';
import { NoPile } from './no-pile.tsx';
import { phaseMessage, renderPhase } from './phase-words.ts';
import { usePile } from './use-pile.ts';
import { usePileWords } from './use-pile-words.ts';
import { whyGroups, whyPath } from './why-facts.ts';
import { WhyKind } from './why-kind.tsx';
import { renderWhy } from './why-render.ts';
import './why.css';

export function WhyPage() {
  const { params } = useRoute();
  const { pile, error, goneName } = usePile(params.id ?? '');
  if (params.kind !== undefined && !isConditionKind(params.kind)) return <NoPage />;
  if (!pile) return <NoPile error={error} goneName={goneName} />;
  return isConditionKind(params.kind) ? (
    <WhyKind key={params.kind} pile={pile} kind={params.kind} />
  ) : (
    <WhyAll pile={pile} />
  );
}

function WhyAll({ pile }: { readonly pile: PileDetail }) {
  const { text } = usePileWords();
  const heading = usePage(text('page-pile.why.title.of', { pileName: pile.name }));
  const say = useSay(renderPhase);
  const said = useSaid(renderPile, pile.site);
  const { present, missing, absent } = whyGroups(pile.evidence);
  return (
    <div class="page">
      <header class="opening">
        <p class="dateline">
          <a href={`/piles/${encodeURIComponent(pile.id)}`}>{pile.name}</a>
        </p>
        <h1 ref={heading} tabIndex={-1}>
          {text('page-pile.why.title')}
        </h1>
        <p class="lead">
          {said(pile, 'condition')} {pile.batch && say(phaseMessage(pile.batch))}
        </p>
        <p>{text('page-pile.why.about')}</p>
      </header>
      {pile.evidence.length === 0 && <p class="quiet">{text('page-pile.why.nothing')}</p>}
      <Kinds id="seen" title={text('page-pile.why.seen')} kinds={present} pile={pile} />
      <Kinds id="untold" title={text('page-pile.why.missing')} kinds={missing} pile={pile} />
      <Kinds id="unseen" title={text('page-pile.why.absent')} kinds={absent} pile={pile} />
    </div>
  );
}

interface KindsProps {
  readonly id: string;
  readonly title: string;
  readonly kinds: readonly WarningKind[];
  readonly pile: PileDetail;
}

function Kinds({ id, title, kinds, pile }: KindsProps) {
  const said = useSaid(renderWhy, pile.site);
  const listed = useList();
  const nameOf = usePositionNames();
  if (kinds.length === 0) return null;
  const looked = pile.evidence.map((one) => ({ ...one, seen: said(one, 'seen') }));
  return (
    <Part id={id} title={title}>
      <ul class="why-kinds">
        {kinds.map((kind) => (
          <li key={kind}>
            <h3>
              <a href={whyPath(pile.id, kind)}>{warningWords(kind)}</a>
            </h3>
            <p class="quiet">{meaningTexts[`meaning.${kind}`]}</p>
            {sightLines(gravest(looked.filter((one) => one.kind === kind))).map(({ places, seen }) => (
              <p key={seen}>
                {places.length > 0 && <b>{capital(listed(places.map(nameOf)))}: </b>}
                {seen}
              </p>
            ))}
          </li>
        ))}
      </ul>
    </Part>
  );
}

/** Where something is seen or untellable, the places without it are left to the kind's own page. */
function gravest(looked: PileDetail['evidence']): PileDetail['evidence'] {
  const some = looked.filter((one) => one.evidence !== 'absent');
  return some.length > 0 ? some : looked;
}
