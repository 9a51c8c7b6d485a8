// Every manifest of deploy/ against the types of the cluster's and the gateway's resources: a misspelt
// member, a wrong kind of value or a word that is none fails.
const fs = require("fs");
const path = require("path");
const { execFileSync } = require("child_process");
const yaml = require("js-yaml");

const deploy = process.argv[2] ?? path.join(__dirname, "../../deploy");
const lines = [];
for (const file of fs.readdirSync(deploy).filter((name) => name.endsWith(".yaml")).sort()) {
  for (const resource of yaml.loadAll(fs.readFileSync(path.join(deploy, file), "utf8"))) {
    const { apiVersion, kind, metadata } = resource;
    const ours = apiVersion.startsWith("gateway.networking.k8s.io/");
    const models = ours ? "@kubernetes-models/gateway-api" : "kubernetes-models";
    const type = `import("${models}/${apiVersion}/${kind}").I${kind}`;
    lines.push(`export const _${lines.length}: ${type} = ${JSON.stringify(resource)};`);
    console.log(`${file}: ${kind} ${metadata.name}`);
  }
}
if (lines.length < 8) throw new Error(`only ${lines.length} resources were found`);
const generated = path.join(__dirname, "node_modules/.manifests.ts");
fs.writeFileSync(generated, lines.join("\n"));
const tsc = path.join(__dirname, "node_modules/.bin/tsc");
execFileSync(tsc, ["--noEmit", "--strict", "--skipLibCheck", "--module", "node16", "--ignoreConfig", generated], { stdio: "inherit" });
