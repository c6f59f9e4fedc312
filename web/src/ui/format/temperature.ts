/** Temperatures as the person reads them; the same words as in messages. */
export * from '../../../../shared/temperature.ts';
