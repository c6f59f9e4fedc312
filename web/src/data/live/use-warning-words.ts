/** What each kind of warning is called, and what it looks out for, in the language that is read. */
import { conditionTexts } from '../../../../shared/messages/made/en/condition.ts';
import type { WarningKind } from '../../../../shared/warning.ts';
import { useOtherLanguage } from '../language.ts';

/** @example useWarningWords()('drying', 'name') // => "Drying", or "Se seca" */
export function useWarningWords(): (kind: WarningKind, what: 'name' | 'meaning') => string {
  const other = useOtherLanguage();
  return (kind, what) => {
    const code = `condition.${kind}.${what}` as const;
    return other?.texts[code] ?? conditionTexts[code];
  };
}
