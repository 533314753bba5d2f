import { useNavigate } from "@tanstack/react-router";
import { useEffect } from "react";
import type { Held } from "../desk/held-files.ts";

/** A file that was here before has an address already: the page moves there, so that a reload finds it. */
export const useOwnAddress = (one: Held | null, id: string, to: "/recordings/$id" | "/recordings/$id/reading"): void => {
  const navigate = useNavigate();
  const own = one?.id ?? id;
  useEffect(() => {
    if (own !== id) void navigate({ to, params: { id: own }, replace: true });
  }, [own, id, to, navigate]);
};
