// Made from ../../es/page-weather.json by `npm run messages`; change that instead.
import type { PageTexts } from '../../page-text.ts';
import type { PageWeatherParams } from '../params/page-weather.ts';

export const pageWeatherTexts: PageTexts<PageWeatherParams> = {
  "page-weather.title": "El aire de mañana",
  "page-weather.lead": "Una cama delgada sigue al aire. Con el aire de mañana su pronóstico acierta mucho más; sin él, se supone que mañana será como hoy.",
  "page-weather.what": ["Branhearth puede preguntar al servicio gratuito de ",["sourceText"],", como mucho una vez por hora. No pregunta por ningún lugar si no lo pones aquí. Entonces van allí el lugar, redondeado a cerca de un kilómetro, y el contacto de abajo. Mira sus ",["<","terms","condiciones de uso"],"; sus datos están bajo ",["<","licence","CC BY 4.0"],"."],
  "page-weather.contact": "Contacto",
  "page-weather.contact.hint": "Una dirección de correo o una página tuya: el servicio quiere saber a quién escribir.",
  "page-weather.latitude": ["Latitud de ",["siteName"]],
  "page-weather.longitude": ["Longitud de ",["siteName"]],
  "page-weather.degrees.hint": "En grados, como 47.38. Deja ambas vacías y no se pregunta a nadie por este sitio.",
  "page-weather.save": "Guardar",
  "page-weather.saved": "Guardado.",
  "page-weather.not-a-number": "Debe ser un número de grados.",
  "page-weather.heard": [["siteName"],": última respuesta ",["heardAtMs"],"."],
  "page-weather.waiting": [["siteName"],": todavía sin respuesta."],
  "page-weather.problem": [["siteName"],": la última petición no dio nada: ",["problemText"],". Se repite sola."],
  "page-weather.own": ["Tus propios programas pueden dar el aire que viene con ",["<","mono","POST /api/sites/…/air-ahead"]," o retenido en ",["<","mono","…/air-ahead"],"."],
};
