export type IncubationHumidity = 'high' | 'low'

/**
 * Days of incubation at a constant temperature, the shortest (high humidity) or the longest (low humidity); null
 * outside 10-28 °C, our limit, for the paper's range wasn't read.
 * Source: Rossi, Giosue, Girometta & Bugiani 2002, Atti Giornate Fitopatologiche 2:263-270, repeated as equations
 * 8 and 9 of Rossi, Caffi, Giosue & Bugiani 2008, Ecological Modelling 212:480-491; as read in public codes. A
 * regression of the data of Goidanich, Casarini & Foschi 1957.
 */
export function downyIncubationDays(temperature: number, humidity: IncubationHumidity): number | null {
  if (!(temperature >= 10 - 1e-9 && temperature <= 28 + 1e-9)) return null
  if (humidity === 'high') return 45.1 - 3.45 * temperature + 0.073 * temperature ** 2
  return 59.9 - 4.55 * temperature + 0.095 * temperature ** 2
}
