import { StrictMode } from "react";
import { createRoot } from "react-dom/client";
import { holdStillWhilePressed } from "./desk/held-files.ts";
import { themeNow, wear } from "./frame/theme.ts";
import { Room } from "./room.tsx";

wear(themeNow());
holdStillWhilePressed(document);

const place = document.getElementById("room");
if (place === null) throw new Error("broken promise: index.html has the place for the room");
createRoot(place).render(
  <StrictMode>
    <Room />
  </StrictMode>,
);
