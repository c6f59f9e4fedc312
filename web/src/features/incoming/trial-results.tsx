/** What a mapping makes of the last messages, tried as it is put together. */
import type { ComponentChildren } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import type { MappingInput, MappingTrial } from '../../../../shared/contracts/mappings.ts';
import { useSay } from '../../data/live/use-say.ts';
import { tryMapping } from '../../data/mappings.ts';
import { usePrefs } from '../../data/prefs.ts';
import { shortName, signOf } from '../../ui/format/quantity-words.ts';
import { formatTemp, type TempUnit } from '../../ui/format/temperature.ts';
import { refusalName, renderRefusal } from './refusal-words.ts';
import { useIncomingWords } from './use-incoming-words.ts';
import './incoming.css';

/** Typed letters are gathered for so long before the server is asked. */
const gatherMs = 200;
const mostShown = 5;

type Result = MappingTrial['results'][number];

/** Asked again when the mapping is another; what cannot be tried is said by `fail`. */
export function useTrial(mapping: MappingInput, fail: (error: unknown) => void): readonly Result[] | undefined {
  const key = JSON.stringify(mapping);
  const [trial, setTrial] = useState<{ readonly of: string; readonly results: readonly Result[] }>();
  useEffect(() => {
    let isOver = false;
    const timer = setTimeout(() => {
      tryMapping(mapping).then(
        ({ results }) => {
          if (isOver) return;
          fail(undefined);
          setTrial({ of: key, results });
        },
        (error: unknown) => !isOver && fail(error),
      );
    }, gatherMs);
    return () => {
      isOver = true;
      clearTimeout(timer);
    };
  }, [key]);
  return trial?.of === key ? trial.results : undefined;
}

const mono = (inner: ComponentChildren) => <code>{inner}</code>;
const strong = (inner: ComponentChildren) => <b>{inner}</b>;
const wrong = (inner: ComponentChildren) => <span class="wrong">{inner}</span>;

export function TrialResults({ results }: { readonly results: readonly Result[] }) {
  const { text } = useIncomingWords();
  if (results.length === 0) return <p class="quiet">{text('page-incoming.mapping.no-trial')}</p>;
  return (
    <ul class="trial">
      {results.slice(0, mostShown).map((result) => (
        <OneResult key={`${result.topic} ${result.payload}`} result={result} />
      ))}
    </ul>
  );
}

function OneResult({ result }: { readonly result: Result }) {
  const { rich } = useIncomingWords();
  const say = useSay(renderRefusal);
  const { unit } = usePrefs();
  const { topic: topicText, readings, refusals } = result;
  if (result.isOfUnknownAge) return <li>{rich('page-incoming.mapping.unknown-age', { topicText, mono })}</li>;
  return (
    <>
      {readings.map((reading) => (
        <li key={`${reading.site}/${reading.probe}/${reading.quantity}`}>
          {rich('page-incoming.mapping.becomes', {
            topicText,
            mono,
            quantityName: shortName(reading.quantity),
            valueText: exactWords(reading, unit),
            strong,
            probeText: `${reading.site}/${reading.probe}`,
          })}
        </li>
      ))}
      {(refusals.length > 0 || readings.length === 0) && (
        <li>
          {rich('page-incoming.mapping.fails', {
            topicText,
            mono,
            wrong,
            isRefused: refusals.length > 0,
            reasonText: refusals[0] === undefined ? '' : say(refusalName(refusals[0].reason)),
            refusalText: refusals[0] === undefined ? '' : say(refusals[0].messages.message),
          })}
        </li>
      )}
    </>
  );
}

/** To the last decimal: it is to be set beside what was sent. */
function exactWords({ quantity, value }: Result['readings'][number], unit: TempUnit): string {
  return quantity === 'temperature' ? formatTemp(value, unit) : `${value}\u00a0${signOf(quantity)}`;
}
