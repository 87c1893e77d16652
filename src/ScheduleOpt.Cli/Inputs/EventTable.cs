using System.Text.Json.Nodes;
using ScheduleOpt.Interchange;

namespace ScheduleOpt.Cli.Inputs;

/// <summary>Reads events that a utility called: a CSV table, or JSON as a request has it.</summary>
internal static class EventTable
{
    private const int MostFaults = 20;

    /// <summary>The <c>events</c> of a request; none where faults were noted.</summary>
    public static JsonObject? Read(RequestDraft draft, string path, string text)
    {
        if (text.AsSpan().TrimStart('\uFEFF').TrimStart().StartsWith("{"))
        {
            var json = RequestDraft.Of(text, $"{path} ");
            draft.Faults.AddRange(json.Faults);
            return json.IsRead ? (JsonObject)json.Value.Root.DeepClone() : null;
        }

        var events = new JsonObject();
        var (number, faults) = (0, 0);
        foreach (var row in text.TrimStart('\uFEFF').Split('\n'))
        {
            number++;
            var cells = row.Trim().Split(',', ';', '\t').Select(c => c.Trim(' ', '"')).ToArray();
            if (cells is [""] || cells[0].StartsWith('#') || (events.Count == 0 && cells.Contains("event", StringComparer.OrdinalIgnoreCase)))
            {
                continue;
            }

            if (cells is [{ Length: > 0 }, _] or [{ Length: > 0 }, _, _])
            {
                if (events[cells[0]] is not JsonArray called)
                {
                    called = [];
                    events[cells[0]] = called;
                }

                called.Add(cells.Length == 2 || cells[2].Length == 0
                    ? new JsonObject { ["date"] = cells[1] }
                    : new JsonObject { ["from"] = cells[1], ["to"] = cells[2] });
            }
            else if (faults++ < MostFaults)
            {
                draft.Faults.Add(new Fault(path, "Each row must be the name of an event and its date, or its start and end.", row.Trim(), number));
            }
        }

        if (faults == 0 && events.Count == 0)
        {
            draft.Faults.Add(new Fault(path, "Holds no event; each row must be the name of an event and its date, or its start and end."));
        }

        return faults == 0 && events.Count > 0 ? events : null;
    }
}
