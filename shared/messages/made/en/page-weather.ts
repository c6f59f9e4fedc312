// Made from ../../en/page-weather.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageWeatherParams } from '../params/page-weather.ts';

export const pageWeatherTexts: PageTexts<PageWeatherParams> = {
  "page-weather.title": "Tomorrow’s air",
  "page-weather.lead": "A thin bed follows the air. With tomorrow’s air its forecast comes much nearer; without it, tomorrow is taken to be like today.",
  "page-weather.what": ["Branhearth can ask the free service of ",["sourceText"],", at most once an hour. It asks for no place unless you set one here. Then the place, rounded to about a kilometre, and the contact below go there. See its ",["<","terms","terms of use"],"; its data are under ",["<","licence","CC BY 4.0"],"."],
  "page-weather.contact": "Contact",
  "page-weather.contact.hint": "An e-mail address or a page of yours: the service wants to know whom to write to.",
  "page-weather.latitude": ["Latitude of ",["siteName"]],
  "page-weather.longitude": ["Longitude of ",["siteName"]],
  "page-weather.degrees.hint": "In degrees, such as 47.38. Leave both empty and nobody is asked for this site.",
  "page-weather.save": "Save",
  "page-weather.saved": "Saved.",
  "page-weather.not-a-number": "Must be a number of degrees.",
  "page-weather.heard": [["siteName"],": last answer ",["heardAtMs"],"."],
  "page-weather.waiting": [["siteName"],": no answer yet."],
  "page-weather.problem": [["siteName"],": the last request gave nothing: ",["problemText"],". It is made again by itself."],
  "page-weather.own": ["Programs of your own tell the air to come by ",["<","mono","POST /api/sites/…/air-ahead"]," or retained on ",["<","mono","…/air-ahead"],"."],
};
