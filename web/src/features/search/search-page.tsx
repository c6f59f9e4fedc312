/** Piles, batches, entries of the journal and probes by their words, each kind by itself; what is looked for stands in the address. */

import { useEffect, useRef } from 'preact/hooks';
import { useLocation } from 'preact-iso';
import { mostEntriesSearched } from '../../../../shared/contracts/search.ts';
import { addressWith } from '../../data/address-query.ts';
import { reasonOf } from '../../data/client.ts';
import { usePage } from '../../ui/parts/use-page.ts';
import { SearchResults } from './search-results.tsx';
import { useFound } from './use-found.ts';
import { useSearchWords } from './use-search-words.ts';
import './search.css';

export function SearchPage() {
  const { text } = useSearchWords();
  const { query, route } = useLocation();
  const heading = usePage(text('page-search.title'));
  const field = useRef<HTMLInputElement>(null);
  const typed = query.find ?? '';
  const found = useFound(typed);
  // Whoever comes here comes to type; whoever comes back comes to read.
  useEffect(() => {
    if (typed === '') field.current?.focus();
  }, []);
  return (
    <div class="page">
      <div class="opening">
        <h1 ref={heading} tabIndex={-1}>
          {text('page-search.title')}
        </h1>
        <search class="form search-field">
          <div class="field">
            <label for="search-words">{text('page-search.label')}</label>
            <input
              ref={field}
              id="search-words"
              type="search"
              maxLength={200}
              value={typed}
              autocomplete="off"
              aria-describedby="search-hint"
              onInput={(event) => route(addressWith('/search', { find: event.currentTarget.value }), true)}
            />
            <p class="hint" id="search-hint">
              {text('page-search.hint')}
            </p>
          </div>
        </search>
        <p role="status">{statusOf(found, text)}</p>
        {found.error !== undefined && <p class="refusal">{reasonOf(found.error)}</p>}
      </div>
      {found.answer && <SearchResults answer={found.answer} words={found.words} />}
      {found.answer?.isWhole === false && (
        <p class="quiet">{text('page-search.cut', { entryCount: mostEntriesSearched })}</p>
      )}
    </div>
  );
}

function statusOf({ answer, isLooking }: ReturnType<typeof useFound>, text: ReturnType<typeof useSearchWords>['text']) {
  if (answer === null) return isLooking ? text('page-search.looking') : '';
  const { piles, batches, entries, probes } = answer;
  const foundCount = piles.count + batches.count + entries.count + probes.count;
  return foundCount === 0 ? text('page-search.none') : text('page-search.count', { foundCount });
}
