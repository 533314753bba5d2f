// Made from rooms.cjs; change walls there.
const { forbidden } = require("./rooms.cjs");

module.exports = {
  forbidden,
  options: {
    doNotFollow: { path: "node_modules" },
    exclude: { path: "[.](css|woff2|svg|csv)" },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: "tsconfig.base.json" },
    enhancedResolveOptions: {
      extensions: [".ts", ".tsx", ".mjs", ".cjs", ".js", ".json"],
      exportsFields: ["exports"],
      conditionNames: ["import", "node", "default", "types"],
    },
  },
};
