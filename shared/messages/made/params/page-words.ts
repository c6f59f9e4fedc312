// Made from ../../en/page-words.json by `npm run messages`; change that instead.
import type { NoParams } from '../../param-types.ts';

export interface PageWordsParams {
  'page-words.length': { readonly lengthCount: number; readonly unit: 'hour' | 'minute' | 'other' | 'second' };
  'page-words.ago': { readonly lengthText: string };
  'page-words.just-now': NoParams;
  'page-words.now': NoParams;
  'page-words.due': { readonly due: 'now' | 'other' | 'passed'; readonly lengthText: string; readonly timeText: string };
  'page-words.day': { readonly dayNumber: number };
  'page-words.warning': { readonly position: 'base' | 'core' | 'edge' | 'other' | 'top'; readonly warningText: string };
  'page-words.new-warning': { readonly pileName: string; readonly todoText: string; readonly warningText: string };
  'page-words.state': { readonly hasEnd: boolean; readonly state: 'acknowledged' | 'normal' | 'other' | 'returned' | 'shelved' | 'unacknowledged'; readonly untilText: string };
  'page-words.silenced': { readonly stateText: string; readonly warningText: string };
  'page-words.no-answer': NoParams;
  'page-words.held-up': NoParams;
  'page-words.unreadable': { readonly pathText: string };
  'page-words.refused': NoParams;
  'page-words.refused.says': { readonly statusText: string };
  'page-words.not-number': NoParams;
  'page-words.not-number.says': NoParams;
  'page-words.not-number.field': { readonly exampleNumber: number };
}
