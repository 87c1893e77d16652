namespace ScheduleOpt.Interchange.Meters.Csv;

/// <summary>Reads the cells that hold readings.</summary>
internal sealed class ReadingValues(TableLayout layout, ReadingNotes notes)
{
    private int unreadable;

    /// <summary>Blank cells so far.</summary>
    public int Blanks { get; private set; }

    /// <summary>The reading of a cell; none where it is blank, unreadable or, with a fault, more than anyone meters. [1e-6 kWh, or 1e-6 kW]</summary>
    public long? Read(int line, string cell)
    {
        if (NumberText.IsBlank(cell))
        {
            Blanks++;
            return null;
        }

        if (!layout.Numbers.TryParse(cell, out var number))
        {
            if (unreadable++ < 5)
            {
                notes.Warn($"Line {line}: '{Calendars.Shortened.Text(cell, 30)}' is not a number and counts as missing.");
            }

            return null;
        }

        if (Math.Abs(number) > 1_000_000_000)
        {
            notes.Fault("#/csv", "The energy of an interval must be at most 1000000 kWh.", cell, line);
            return null;
        }

        var kilo = layout.Unit is MeterUnit.WattHours or MeterUnit.Watts ? number / 1000 : number;
        if (Math.Abs(kilo) > 1_000_000)
        {
            notes.Fault("#/csv", "The energy of an interval must be at most 1000000 kWh.", cell, line);
            return null;
        }

        return (long)Math.Round(kilo * 1_000_000, MidpointRounding.AwayFromZero);
    }
}
