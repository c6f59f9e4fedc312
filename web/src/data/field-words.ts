/** What a form says beside a field before anything is sent. */
import { type FieldIssue, fieldFault } from '../../../shared/messages/field-fault.ts';
import { fieldTexts } from '../../../shared/messages/made/en/field.ts';
import { rendererOf } from '../../../shared/messages/renderer.ts';
import { sayNow } from './say-now.ts';

const renderField = rendererOf(fieldTexts);

/** @example fieldWords(issue) // => "Must be at least 2 cm.", or "Must be at least 0.787 in." for whoever reads feet */
export const fieldWords = (issue: FieldIssue): string => sayNow(renderField)(fieldFault(issue));
