/** Batches of past seasons side by side: curves, measures, two groups in words. */

import type { ComponentChildren } from 'preact';
import { useMemo, useState } from 'preact/hooks';
import { useLocation, useRoute } from 'preact-iso';
import type { CompareAnswer } from '../../../../shared/contracts/seasons.ts';
import { reasonOf } from '../../data/client.ts';
import { useMay } from '../../data/me.ts';
import { usePrefs } from '../../data/prefs.ts';
import { useQuery } from '../../data/use-query.ts';
import { FileLink } from '../../ui/parts/file-link.tsx';
import { Choice, PickField, TextField } from '../../ui/parts/forms.tsx';
import { May } from '../../ui/parts/only-for.tsx';
import { Part } from '../../ui/parts/part.tsx';
import { usePage } from '../../ui/parts/use-page.ts';
import { addressOf, type Comparison, choiceQuery, idsIn, readComparison, type View } from './address.ts';
import { Apart } from './apart.tsx';
import { BestPart } from './best-part.tsx';
import { Choose } from './choose.tsx';
import { colourFacts, curveGroups, tellingFact } from './curve-groups.ts';
import { MeasureTable } from './measure-table.tsx';
import { Overlay } from './overlay.tsx';
import { getCompared, getCurves } from './season-api.ts';
import { SeasonNames } from './season-names.tsx';
import { foundIn, sorted } from './table-rows.ts';
import { TwoGroups } from './two-groups.tsx';
import { useSaySeason, useSeasonWords } from './use-season-words.ts';
import './season.css';
import './measure-table.css';

export function SeasonsPage() {
  const { text } = useSeasonWords();
  const heading = usePage(text('page-seasons.title'));
  const { query } = useRoute();
  const { route } = useLocation();
  const comparison = useMemo(() => readComparison(query), [query]);
  const asked = choiceQuery(comparison.choice);
  const compared = useQuery(`compared ${asked}`, () => getCompared(asked));
  const go = (change: Partial<Comparison>) => route(addressOf({ ...comparison, ...change }), true);
  return (
    <div class="page seasons-page">
      <h1 ref={heading} tabIndex={-1}>
        {text('page-seasons.title')}
      </h1>
      <p class="lead no-print">{text('page-seasons.lead')}</p>
      {compared.error !== undefined && <p class="refusal">{reasonOf(compared.error)}</p>}
      {compared.value && (
        <Choose choice={comparison.choice} offers={compared.value.offers} onChoice={(choice) => go({ choice })} />
      )}
      {compared.value ? (
        <Compared
          answer={compared.value}
          comparison={comparison}
          asked={asked}
          onView={(change) => go({ view: { ...comparison.view, ...change } })}
          onNamed={() => void compared.refresh()}
        />
      ) : (
        compared.error === undefined && <p class="quiet">{text('page-seasons.reading')}</p>
      )}
    </div>
  );
}

interface ComparedProps {
  readonly answer: CompareAnswer;
  readonly comparison: Comparison;
  readonly asked: string;
  readonly onView: (change: Partial<View>) => void;
  readonly onNamed: () => void;
}

/** Which batches are shown in which order, and their curves. */
function useShown({ answer, comparison: { view }, asked }: ComparedProps) {
  const curves = useQuery(`curves ${asked}`, () => getCurves(asked));
  const shown = useMemo(
    () => sorted(foundIn(answer.batches, view.find), view.sort, view.order),
    [answer, view.find, view.sort, view.order],
  );
  const names = useMemo(() => new Map(answer.batches.map(({ id, name }) => [id, name])), [answer]);
  const nameOf = (id: string) => names.get(id) ?? id;
  const inOrder = useMemo(() => {
    const byId = new Map(curves.value?.curves.map((curve) => [curve.id, curve]));
    return shown.flatMap(({ id }) => byId.get(id) ?? []);
  }, [curves.value, shown]);
  const broughtOut = idsIn(view.out).filter((id) => shown.some((batch) => batch.id === id));
  return { curves, shown, nameOf, inOrder, broughtOut };
}

function Compared(props: ComparedProps) {
  const { text, rich } = useSeasonWords();
  const mayBring = useMay('keeper');
  const { answer, asked, onView, onNamed } = props;
  const { view } = props.comparison;
  const found = useShown(props);
  const { shown } = found;
  const { unit } = usePrefs();
  if (answer.batches.length === 0) {
    return <p class="sentence">{rich('page-seasons.none', { mayBring, link: toEarlier })}</p>;
  }
  return (
    <>
      <div class="seasons-tools">
        <p>
          {answer.leftOut > 0
            ? text('page-seasons.left-out', { batchCount: shown.length, leftOutCount: answer.leftOut })
            : text('page-seasons.batches', { batchCount: shown.length })}
        </p>
        <Tools asked={asked} />
      </div>
      <BestPart batches={answer.batches} choice={props.comparison.choice} />
      <Curves of={found} view={view} onView={onView} />
      <Measures of={found} view={view} onView={onView} />
      <Part id="groups" title={text('page-seasons.groups')}>
        <TwoGroups batches={shown} view={view} unit={unit} onView={onView} />
      </Part>
      <May to="keeper">
        <div class="no-print">
          <Part id="earlier" title={text('page-seasons.earlier')}>
            <p>{rich('page-seasons.earlier.lead', { link: toEarlier })}</p>
          </Part>
        </div>
      </May>
      <div class="no-print">
        <Part id="season-names" title={text('page-seasons.names')}>
          <SeasonNames seasons={answer.offers.seasons} onNamed={onNamed} />
        </Part>
      </div>
    </>
  );
}

interface ShownProps extends Pick<ComparedProps, 'onView'> {
  readonly of: ReturnType<typeof useShown>;
  readonly view: View;
}

const toEarlier = (inner: ComponentChildren) => <a href="/seasons/earlier">{inner}</a>;

function Curves({ of: { curves, shown, inOrder, nameOf, broughtOut }, view, onView }: ShownProps) {
  const { text } = useSeasonWords();
  const say = useSaySeason();
  const { unit } = usePrefs();
  const fact = useMemo(
    () => (view.colour === 'best' ? tellingFact(shown) : view.colour === 'none' ? undefined : view.colour),
    [view.colour, shown],
  );
  const groups = useMemo(() => (fact ? curveGroups(shown, fact, say) : []), [fact, shown]);
  return (
    <Part id="curves" title={text('page-seasons.curves')}>
      <div class="seasons-views">
        <Choice
          legend={text('page-seasons.by')}
          value={view.by}
          choices={[
            ['age', text('page-seasons.by.age')],
            ['warming', text('page-seasons.by.warming')],
          ]}
          onValue={(by) => onView({ by })}
        />
        <Choice
          legend={text('page-seasons.draw')}
          value={view.draw}
          choices={[
            ['over', text('page-seasons.draw.over')],
            ['apart', text('page-seasons.draw.apart')],
          ]}
          onValue={(draw) => onView({ draw })}
        />
        {view.draw === 'over' && (
          <PickField
            label={text('page-seasons.colour')}
            value={fact ?? 'none'}
            choices={[
              ...colourFacts.map((one) => [one, text(`page-seasons.fact.${one}`)] as const),
              ['none', text('page-seasons.colour.none')] as const,
            ]}
            onValue={(colour) => onView({ colour })}
          />
        )}
      </div>
      {curves.value === undefined ? (
        <p class="quiet">{curves.error === undefined ? text('page-seasons.curves.reading') : reasonOf(curves.error)}</p>
      ) : view.draw === 'over' ? (
        <Overlay curves={inOrder} nameOf={nameOf} by={view.by} broughtOut={broughtOut} unit={unit} groups={groups} />
      ) : (
        <Apart curves={inOrder} nameOf={nameOf} by={view.by} unit={unit} />
      )}
    </Part>
  );
}

function Measures({ of: { shown, broughtOut }, view, onView }: ShownProps) {
  const { text } = useSeasonWords();
  const { unit } = usePrefs();
  return (
    <section aria-labelledby="measures" class="measures-part">
      <h2 id="measures">{text('page-seasons.measures')}</h2>
      <div class="measures-find">
        <TextField label={text('page-seasons.measures.find')} value={view.find} onValue={(find) => onView({ find })} />
      </div>
      <MeasureTable
        batches={shown}
        view={view}
        broughtOut={broughtOut}
        unit={unit}
        onSort={(sort, order) => onView({ sort, order })}
        onBringOut={(ids) => onView({ out: ids.join(',') })}
      />
      <p class="hint no-print">{text('page-seasons.measures.hint')}</p>
    </section>
  );
}

function Tools({ asked }: { readonly asked: string }) {
  const { text } = useSeasonWords();
  const [status, setStatus] = useState('');
  const copy = async () => {
    try {
      await navigator.clipboard.writeText(location.href);
      setStatus(text('page-seasons.link.copied'));
    } catch {
      setStatus(text('page-seasons.link.not-copied'));
    }
  };
  return (
    <div class="tools">
      <button type="button" onClick={() => void copy()}>
        {text('page-seasons.link')}
      </button>
      <button type="button" onClick={() => print()}>
        {text('page-seasons.print')}
      </button>
      <FileLink path={`/api/compare.csv?${asked}`} name="batches-compared.csv">
        CSV
      </FileLink>
      <FileLink path={`/api/compare.json?${asked}`} name="batches-compared.json">
        JSON
      </FileLink>
      <span role="status" class={status ? 'hint' : 'unseen'}>
        {status}
      </span>
    </div>
  );
}
