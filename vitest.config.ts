import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["test/**/*.test.ts"],
    exclude: ["test/browser/**"],
    pool: "forks",
    maxWorkers: 2,
    testTimeout: 60_000,
  },
});
