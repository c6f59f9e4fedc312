/** Keeps a limit from chattering. */

/**
 * A high limit: passed above it, and passed still until the value falls below limit minus deadband.
 *
 * @example highLimit(true, 49.2, 50, 1) // => true; highLimit(true, 48.9, 50, 1) // => false
 * @see OPC 10000-9 (alarms and conditions), annex B, on deadband (second-hand).
 */
export function highLimit(passed: boolean, value: number, limit: number, deadband: number): boolean {
  return passed ? value >= limit - deadband : value > limit;
}

/** A low limit: passed below it, and passed still until the value rises above limit plus deadband. */
export function lowLimit(passed: boolean, value: number, limit: number, deadband: number): boolean {
  return passed ? value <= limit + deadband : value < limit;
}
