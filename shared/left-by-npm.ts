/**
 * npm hands a signal to the shell in which it runs a script, and that ends without handing it on: what it ran would go on
 * alone, with its ports and its folder.
 */
const lookEveryMs = 500;

/** @param left Called once, when whoever started this process is gone; never where that was not npm. */
export function onLeftByNpm(left: () => void): void {
  if (process.env.npm_lifecycle_event === undefined) return;
  const parent = process.ppid;
  const looking = setInterval(() => {
    if (process.ppid === parent) return;
    clearInterval(looking);
    left();
  }, lookEveryMs).unref();
}
