import { getHealth } from '../routes.ts';
import { changeInstallation } from './installation.ts';

/** Asks how the installation is now. That there is no answer is said by the live mark. */
export async function refreshHealth(): Promise<void> {
  try {
    changeInstallation({ health: await getHealth() });
  } catch {
    // What was known stays.
  }
}
