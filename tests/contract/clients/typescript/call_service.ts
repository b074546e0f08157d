// Uses the generated types as an integrator would: node compiled/call_service.js ADDRESS
import createClient from "openapi-fetch";
import { example } from "./example.js";
import type { paths } from "./schema.js";

const address = process.argv[2];
if (address === undefined) throw new Error("give the address of the service");
const client = createClient<paths>({ baseUrl: address });

const alive = await client.GET("/livez");
if (alive.data === undefined) throw new Error(`/livez answered ${alive.response.status}`);

const answered = await client.POST("/v1/outage-runtime", { body: example });
if (answered.data === undefined) throw new Error(`refused: ${JSON.stringify(answered.error)}`);

const beyond = { ...example, no_such_field: 1 };
const refused = await client.POST("/v1/outage-runtime", { body: beyond });
if (refused.error === undefined) throw new Error("an unknown field was taken");
if (refused.error.errors.length === 0) throw new Error("the refusal names no field");

console.log(`TypeScript client: ${alive.data.status}, verdict ${answered.data.verdict}`);
