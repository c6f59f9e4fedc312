// Made from ../../en/page-words.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageWordsParams } from '../params/page-words.ts';

export const pageWordsTexts: PageTexts<PageWordsParams> = {
  "page-words.length": [["unit",{"second":[["lengthCount"]," s"],"minute":[["lengthCount"]," min"],"hour":[["lengthCount"]," h"],"other":[["lengthCount",{"one":[["#"]," day"],"other":[["#"]," days"]},1]]},0]],
  "page-words.ago": [["lengthText"]," ago"],
  "page-words.just-now": "just now",
  "page-words.now": "now",
  "page-words.due": [["due",{"now":"Now","passed":["This was due ",["lengthText"]," ago, at ",["timeText"]],"other":["By ",["timeText"]," (in ",["lengthText"],")"]},0]],
  "page-words.day": ["day ",["dayNumber"]],
  "page-words.warning": [["warningText"],", ",["position",{"core":"core","top":"top","base":"base","edge":"edge","other":"air"},0]],
  "page-words.new-warning": ["New warning at ",["pileName"],": ",["warningText"],". ",["todoText"]],
  "page-words.state": [["state",{"normal":"normal","unacknowledged":"unacknowledged","acknowledged":"acknowledged","returned":"ended, not yet acknowledged","shelved":["shelved",["hasEnd",{"true":[" until ",["untilText"]],"other":""},0]],"other":"out of service"},0]],
  "page-words.silenced": [["warningText"],", ",["stateText"],"."],
  "page-words.no-answer": "Branhearth does not answer. Is it running, and is this device on the same network?",
  "page-words.held-up": "You signed out on this device, and the server has yet to hear of it.",
  "page-words.unreadable": ["The answer of ",["pathText"]," is not one that this page knows. Load the page again."],
  "page-words.refused": "Refused",
  "page-words.refused.says": ["The server refused this and gave no reason (HTTP ",["statusText"],")."],
  "page-words.not-number": "Not a number",
  "page-words.not-number.says": "Nothing was kept: a field that wants a number holds something else.",
  "page-words.not-number.field": ["This is not a number. Write one, such as ",["exampleNumber"],"."],
};
