/** Temperatures as the person reads them; the same words as in messages. */

export { sentenceIn } from '../../../../shared/messages/verbatim-text.ts';
export * from '../../../../shared/temperature.ts';
