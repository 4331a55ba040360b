/** A JSON Schema, draft 2020-12. */
export type JsonSchema = Record<string, unknown>
