namespace ScheduleOpt.Interchange.Calendars;

/// <summary>A component of a calendar, such as VEVENT, with its own property lines; those of components inside it are left out.</summary>
internal sealed class CalendarComponent(string name, int line, CalendarComponent? parent)
{
    private readonly List<ContentLine> lines = [];

    /// <summary>The component's name in capitals.</summary>
    internal string Name { get; } = name;

    /// <summary>The line it begins at, from 1.</summary>
    internal int Line { get; } = line;

    /// <summary>The component it stands in.</summary>
    internal CalendarComponent? Parent { get; } = parent;

    /// <summary>Property lines in order.</summary>
    internal IReadOnlyList<ContentLine> Lines => lines;

    /// <summary>The first property of a name.</summary>
    internal ContentLine? First(string property) => lines.Find(l => l.Name == property);

    /// <summary>Every property of a name.</summary>
    internal IEnumerable<ContentLine> All(string property) => lines.Where(l => l.Name == property);

    /// <summary>Takes property lines apart into components, in order of their beginnings; stops at the first fault.</summary>
    internal static List<CalendarComponent> Read(List<ContentLine> lines, string pointer, List<Fault> faults)
    {
        var all = new List<CalendarComponent>();
        CalendarComponent? open = null;
        var depth = 0;
        foreach (var line in lines)
        {
            if (line.Name == "BEGIN")
            {
                open = new CalendarComponent(line.Value.Trim().ToUpperInvariant(), line.Line, open);
                all.Add(open);
                depth++;
                if (depth == 1 && open.Name != "VCALENDAR")
                {
                    faults.Add(new Fault(pointer, "A calendar begins with BEGIN:VCALENDAR.", Shortened.Text(line.Value), line.Line));
                }
                else if (depth > CalendarLimits.Depth || all.Count > CalendarLimits.Components)
                {
                    faults.Add(new Fault(
                        pointer,
                        $"A calendar holds at most {CalendarLimits.Components} components, nested at most {CalendarLimits.Depth} deep.",
                        "",
                        line.Line));
                }
            }
            else if (open is null)
            {
                faults.Add(new Fault(pointer, "A calendar begins with BEGIN:VCALENDAR.", Shortened.Text(line.Name), line.Line));
            }
            else if (line.Name == "END")
            {
                if (!line.Value.Trim().Equals(open.Name, StringComparison.OrdinalIgnoreCase))
                {
                    faults.Add(new Fault(
                        pointer,
                        $"The component open here is {Shortened.Text(open.Name)}.",
                        Shortened.Text($"END:{line.Value}"),
                        line.Line));
                }

                open = open.Parent;
                depth--;
            }
            else
            {
                open.lines.Add(line);
            }

            if (faults.Count > 0)
            {
                return all;
            }
        }

        if (open is not null || all.Count == 0)
        {
            faults.Add(all.Count == 0
                ? new Fault(pointer, "A calendar begins with BEGIN:VCALENDAR; this text is empty.")
                : new Fault(pointer, "A component is never ended.", $"BEGIN:{Shortened.Text(open!.Name)}", open.Line));
        }

        return all;
    }
}
