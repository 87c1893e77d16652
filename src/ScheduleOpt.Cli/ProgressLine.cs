using System.Globalization;
using NodaTime;
using ScheduleOpt.Comparison.Year;

namespace ScheduleOpt.Cli;

/// <summary>One line on a terminal that says how far long work has come; nothing where errors go to a file, nothing in the first second.</summary>
internal sealed class ProgressLine(Surroundings surroundings) : IProgress<YearProgress>, IDisposable
{
    private static readonly Duration Patience = Duration.FromSeconds(1);
    private readonly Lock writing = new();
    private readonly Instant begun = surroundings.Clock.GetCurrentInstant();
    private int shown;
    private bool closed;

    /// <inheritdoc/>
    public void Report(YearProgress value)
    {
        if (!surroundings.ErrorIsTerminal || surroundings.Clock.GetCurrentInstant() - begun < Patience)
        {
            return;
        }

        lock (writing)
        {
            if (!closed && value.Done > shown)
            {
                shown = value.Done;
                surroundings.Error.Write(string.Create(CultureInfo.InvariantCulture, $"\rWorking out the year: {value.Done} of {value.Total} "));
            }
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        lock (writing)
        {
            if (!closed && shown > 0)
            {
                surroundings.Error.Write($"\r{new string(' ', 50)}\r");
            }

            closed = true;
        }
    }
}
