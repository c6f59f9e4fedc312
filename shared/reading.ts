/**
 * One measured value as every room speaks of it.
 *
 * Identity is site + probe + quantity + time: the same reading twice is one reading.
 */
import type { Quantity } from './quantity.ts';

export interface Reading {
  readonly site: string;
  readonly probe: string;
  readonly quantity: Quantity;
  /** In the unit of `quantityFacts[quantity]`, calibration applied. */
  readonly value: number;
  /** When it was measured, epoch milliseconds, whole. */
  readonly atMs: number;
}
