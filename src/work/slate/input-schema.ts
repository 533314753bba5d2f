/** JSON Schemas (2020-12) of a calculator's input and answer, made from its description. */
import type { CalculatorDescription, Field, OutputField } from "./description.ts";

export interface JsonSchema {
  readonly [key: string]: unknown;
}

const DIALECT = "https://json-schema.org/draft/2020-12/schema";

export function inputSchema(calculator: CalculatorDescription): JsonSchema {
  return {
    $schema: DIALECT,
    title: `${calculator.title}: input`,
    description: calculator.says,
    ...objectSchema(calculator.inputs),
    examples: calculator.examples.map(({ input }) => input),
  };
}

export function answerSchema(calculator: CalculatorDescription): JsonSchema {
  const text = { type: "string" };
  const source = { type: "object", properties: { title: text, mark: text }, required: ["title", "mark"], additionalProperties: false };
  const properties = {
    form: { const: "lamproom-slate/1" },
    calculator: { const: calculator.id },
    title: text,
    input: { type: "object" },
    outputs: outputsSchema(calculator.outputs),
    outcome: { enum: ["exceeds", "within", "undetermined", null] },
    sentence: text,
    grounds: { type: "array", items: text },
    cautions: { type: "array", items: text },
    sources: { type: "array", items: source },
  };
  return {
    $schema: DIALECT,
    title: `${calculator.title}: answer`,
    type: "object",
    properties,
    required: Object.keys(properties),
    additionalProperties: false,
  };
}

function objectSchema(fields: readonly Field[]): JsonSchema {
  return {
    type: "object",
    properties: Object.fromEntries(fields.map((field) => [field.name, fieldSchema(field)])),
    required: fields.filter(({ required }) => required).map(({ name }) => name),
    additionalProperties: false,
  };
}

function fieldSchema(field: Field): JsonSchema {
  const unit = field.type === "number" && field.unit !== null ? ` Unit: ${field.unit}.` : "";
  const about = { title: field.title, description: `${field.says}${unit}` };
  const value = valueSchema(field);
  return field.required ? { ...about, ...value } : { ...about, anyOf: [value, { type: "null" }] };
}

function valueSchema(field: Field): JsonSchema {
  switch (field.type) {
    case "number": {
      const low = field.least === null ? {} : field.above ? { exclusiveMinimum: field.least } : { minimum: field.least };
      return { type: "number", ...low, ...(field.most === null ? {} : { maximum: field.most }) };
    }
    case "choice":
      return { enum: field.choices.map(({ value }) => value), ...(field.otherwise === null ? {} : { default: field.otherwise }) };
    case "gas":
    case "text":
      return { type: "string", minLength: 1 };
    case "rows":
      return { type: "array", items: objectSchema(field.fields), minItems: field.fewest, maxItems: field.most };
  }
}

function outputsSchema(fields: readonly OutputField[]): JsonSchema {
  return {
    type: "object",
    properties: Object.fromEntries(fields.map((field) => [field.name, outputSchema(field)])),
    required: fields.map(({ name }) => name),
    additionalProperties: false,
  };
}

function outputSchema(field: OutputField): JsonSchema {
  const about = { title: field.title, ...(field.unit === null ? {} : { description: `Unit: ${field.unit}.` }) };
  switch (field.type) {
    case "number":
      return { ...about, type: ["number", "null"] };
    case "text":
      return { ...about, type: ["string", "null"] };
    case "outcome":
      return { ...about, enum: ["exceeds", "within", "undetermined", null] };
    case "rows":
      return { ...about, type: "array", items: outputsSchema(field.fields) };
  }
}
