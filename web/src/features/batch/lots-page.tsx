/** Starters and materials: what batches are made from, and one lot with where it went. */
import { useRoute } from 'preact-iso';
import type { Lot } from '../../../../shared/contracts/lots.ts';
import { reasonOf } from '../../data/client.ts';
import { useReader } from '../../data/live/use-installation.ts';
import { usePlanUnits } from '../../data/plan-units.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { useQuery } from '../../data/use-query.ts';
import { Refusal } from '../../ui/parts/forms.tsx';
import { May } from '../../ui/parts/only-for.tsx';
import { Part } from '../../ui/parts/part.tsx';
import { usePage } from '../../ui/parts/use-page.ts';
import { getLineage } from '../lineage/lineage-api.ts';
import { LineageList, sideOf } from '../lineage/lineage-list.tsx';
import { useLineageWords } from '../lineage/use-lineage-words.ts';
import { changeLot, getLot, getLots, makeLot } from './batch-api.ts';
import { amountWords } from './batch-words.ts';
import { draftOfLot, emptyLot } from './lot-draft.ts';
import { LotForm } from './lot-form.tsx';
import { lotSentence, useLotWords } from './lot-words.ts';
import { useBatchWords } from './use-batch-words.ts';
import './batch.css';

export function LotsPage() {
  const { value, error, refresh } = useQuery('lots', getLots);
  const { text } = useBatchWords();
  const heading = usePage(text('page-batch.lots'));
  const lots = value?.lots ?? [];
  return (
    <div class="page">
      <div class="opening">
        <p class="dateline">
          <a href="/batches">{text('page-batch.batches')}</a>
        </p>
        <h1 ref={heading} tabIndex={-1}>
          {text('page-batch.lots')}
        </h1>
        <p class="lead">{text('page-batch.lots.lead')}</p>
        {error !== undefined && <p class="quiet">{reasonOf(error)}</p>}
      </div>
      {(['starter', 'material'] as const).map((kind) => {
        const of = lots.filter((lot) => lot.facts.kind === kind);
        return (
          <Part key={kind} id={`lots-${kind}`} title={text('page-batch.lots.of', { kind })}>
            {of.length === 0 ? <p class="quiet">{text('page-batch.lots.none')}</p> : <LotList lots={of} />}
          </Part>
        );
      })}
      <May to="keeper">
        <Part id="new-lot" title={text('page-batch.lots.new')}>
          <LotForm isNew first={emptyLot} onKeep={(lot) => makeLot(lot).then(refresh)} />
        </Part>
      </May>
    </div>
  );
}

function LotList({ lots }: { readonly lots: readonly Lot[] }) {
  const words = useLotWords();
  return (
    <ul class="batch-list">
      {lots.map((lot) => (
        <li key={lot.id}>
          <h3>
            <a href={`/lots/${lot.id}`}>{lot.name}</a>
          </h3>
          <p class="quiet">{lotSentence(lot, words, amountWords(lot, words))}</p>
        </li>
      ))}
    </ul>
  );
}

export function LotPage() {
  const { params } = useRoute();
  const id = params.id ?? '';
  const { value, error, refresh } = useQuery(id, () => getLot(id));
  const words = useLotWords();
  const { text } = words;
  const lineage = useLineageWords();
  const heading = usePage(value?.name ?? text('page-batch.lot'));
  const units = usePlanUnits();
  const reader = useReader();
  const line = useQuery(`lot ${id}`, () => getLineage({ start: `lot:${id}`, way: 'both' }));
  return (
    <div class="page">
      <div class="opening">
        <p class="dateline">
          <a href="/lots">{text('page-batch.lots')}</a>
        </p>
        <h1 ref={heading} tabIndex={-1}>
          {value?.name ?? (error === undefined ? text('page-batch.lot.looking') : text('page-batch.lot.none'))}
        </h1>
        {error !== undefined && <p class="lead">{reasonOf(error)}</p>}
        {value && (
          <>
            <p class="sentence">{lotSentence(value, words, amountWords(value, words))}</p>
            {value.note && <p class="diary-note">{value.note}</p>}
            <LotActs lot={value} refresh={refresh} />
          </>
        )}
      </div>
      {line.value && sideOf(line.value, 'up').length > 0 && (
        <Part id="came-from" title={lineage.text('page-lineage.came-from')}>
          <LineageList answer={line.value} way="up" />
        </Part>
      )}
      {line.value && (
        <Part id="where-it-went" title={text('page-batch.lot.went')}>
          <LineageList answer={line.value} way="down" />
        </Part>
      )}
      {value && (
        <May to="keeper">
          <Part id="correct-lot" title={text('page-batch.lot.correct')}>
            <LotForm
              key={`${value.id}${value.usedUp}`}
              isNew={false}
              first={draftOfLot(value, units, reader.timeZone)}
              onKeep={({ from: _, ...lot }) => changeLot(id, lot).then(refresh)}
            />
          </Part>
        </May>
      )}
    </div>
  );
}

function LotActs({ lot, refresh }: { readonly lot: Lot; readonly refresh: () => Promise<void> }) {
  const { text } = useBatchWords();
  const mutation = useMutation();
  return (
    <>
      <p class="buttons">
        <a class="button" href={`/lineage?start=lot:${lot.id}`}>
          {text('page-batch.its-family')}
        </a>
        <May to="keeper">
          <button
            type="button"
            disabled={mutation.busy}
            onClick={() => void mutation.run(() => changeLot(lot.id, { usedUp: !lot.usedUp }).then(refresh))}
          >
            {text('page-batch.lot.used-up', { isUsedUp: lot.usedUp })}
          </button>
        </May>
      </p>
      <Refusal error={mutation.error} />
    </>
  );
}
