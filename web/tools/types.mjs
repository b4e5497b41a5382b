// Writes src/api/types.ts from schema/api.schema.json: one type for each of its definitions, under the same name.
// `node tools/types.mjs` writes the file, `node tools/types.mjs --check` only says whether it is up to date.
import { readFileSync, writeFileSync } from "node:fs";

const schemaPath = new URL("../../schema/api.schema.json", import.meta.url);
const typesPath = new URL("../src/api/types.ts", import.meta.url);
const widest = 112;

// Where a record of the bench file and one of the API share a word, and where the page has a shorter one.
const renamed = {
  card_result: "CardLine",
  checkpoint: "ProcedureCheckpoint",
  complaint: "PlayersComplaint",
  complaint_line: "Complaint",
  limit: "LimitOverride",
  live_judged: "Judged",
  price_result: "Price",
  procedure_limit: "Limit",
};

// A longer list of words without a name of its own (stages, all observables) is just text to the page.
const mostWords = 3;

const typeName = (name) =>
  renamed[name] ?? name.split("_").map((word) => word[0].toUpperCase() + word.slice(1)).join("");

const referred = (schema) => typeName(schema.$ref.slice("#/$defs/".length));

const key = (name) => (/^[a-z_][a-z0-9_]*$/i.test(name) ? name : JSON.stringify(name));

function union(types) {
  return [...new Set(types)].join(" | ");
}

const words = (list) => union(list.map((word) => JSON.stringify(word)));

function plain(type) {
  return { string: "string", integer: "number", number: "number", boolean: "boolean", null: "null" }[type];
}

function members(schema, indent) {
  const required = new Set(schema.required ?? []);
  return Object.entries(schema.properties)
    .map(([name, member]) => {
      const says = member.description ? `${indent}/** ${member.description} */\n` : "";
      const type = name === "schema" ? "string" : typeOf(member, indent); // the client checks it, nobody else asks
      return `${says}${indent}${key(name)}${required.has(name) ? "" : "?"}: ${type};\n`;
    })
    .join("");
}

function typeOf(schema, indent) {
  if (schema.$ref) return referred(schema);
  if ("const" in schema) return JSON.stringify(schema.const);
  if (schema.enum) return schema.enum.length > mostWords ? "string" : words(schema.enum);
  if (schema.anyOf || (schema.oneOf && !schema.properties)) {
    return union((schema.anyOf ?? schema.oneOf).map((one) => typeOf(one, indent)));
  }
  if (schema.type === "array") {
    const item = typeOf(schema.items, indent);
    return item.includes(" | ") ? `(${item})[]` : `${item}[]`;
  }
  if (schema.properties) return `{\n${members(schema, `${indent}  `)}${indent}}`;
  if (schema.type === "object") return `Record<string, ${typeOf(schema.additionalProperties ?? {}, indent)}>`;
  // A quantity: a whole number is only let pass for a count, and always comes back as text.
  if (String(schema.type) === "string,integer") return "string";
  if (Array.isArray(schema.type)) return union(schema.type.map(plain));
  return schema.type ? plain(schema.type) : "unknown";
}

function alias(name, schema) {
  const type = schema.enum ? words(schema.enum) : typeOf(schema, "");
  const line = `export type ${name} = ${type};`;
  return line.length <= widest ? line : `export type ${name} =\n  | ${type.split(" | ").join("\n  | ")};`;
}

function definition([name, schema]) {
  const says = schema.description ? `/** ${schema.description} */\n` : "";
  if (!schema.properties) return `${says}${alias(typeName(name), schema)}\n`;
  return `${says}export interface ${typeName(name)} {\n${members(schema, "  ")}}\n`;
}

const { $defs } = JSON.parse(readFileSync(schemaPath, "utf8"));
const text =
  "// Written by tools/types.mjs from schema/api.schema.json; do not edit.\n\n" +
  Object.entries($defs).map(definition).join("\n");

let there = "";
try {
  there = readFileSync(typesPath, "utf8");
} catch (error) {
  if (error.code !== "ENOENT") throw error;
}
if (there !== text && process.argv.includes("--check")) {
  console.error("src/api/types.ts is not what schema/api.schema.json says; run `node tools/types.mjs`");
  process.exit(1);
}
if (there !== text) writeFileSync(typesPath, text);
