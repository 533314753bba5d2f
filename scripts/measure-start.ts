// `node scripts/measure-start.ts [times]`: how long `npm start` takes until its address is printed, the first time (with
// the build of the screens, where they changed) and then again.
import { startServer } from "./started-server.ts";

const times = Number(process.argv[2] ?? 4);
for (let count = 1; count <= times; count++) {
  const server = await startServer();
  process.stdout.write(`start ${count}: ${(server.milliseconds / 1000).toFixed(2)} s until ${server.address}\n`);
  await server.stop();
}
