// Made from ../../en/push.json by `npm run messages`; change that instead.
export const pushTexts = {
  "push.acknowledge": "Acknowledge",
  "push.done": "Acknowledged",
  "push.not-done": "Not acknowledged now",
  "push.failed": "Could not acknowledge",
  "push.failed.says": "The server cannot be reached from here. Tap to open the pile and try again.",
  "push.unreadable": "Open the pages to see what is new.",
};
