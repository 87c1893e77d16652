using System.Globalization;
using NodaTime;
using ScheduleOpt.Comparison.Year;

namespace ScheduleOpt.Cli;

/// <summary>A bar on a terminal that says how far long work has come; nothing where errors go to a file, nothing in the first second.</summary>
internal sealed class ProgressLine : IProgress<YearProgress>, IDisposable
{
    private const int Width = 40;
    private static readonly Duration Patience = Duration.FromSeconds(1);
    private readonly Lock writing = new();
    private readonly Surroundings surroundings;
    private readonly Instant begun;
    private readonly Timer? looking;
    private readonly CancellationTokenRegistration given;
    private YearProgress latest;
    private string shown = "";
    private bool closed;

    /// <summary>Begins.</summary>
    /// <param name="surroundings">The terminal and the clock.</param>
    /// <param name="isQuiet">Whether nothing is shown at all.</param>
    /// <param name="cancellation">When the work is given up the line goes at once.</param>
    public ProgressLine(Surroundings surroundings, bool isQuiet = false, CancellationToken cancellation = default)
    {
        this.surroundings = surroundings;
        begun = surroundings.Clock.GetCurrentInstant();
        closed = isQuiet || !surroundings.ErrorIsTerminal;
        if (!closed)
        {
            // The first part may itself take longer than a second.
            looking = new Timer(_ => Look(), null, Patience.ToTimeSpan(), TimeSpan.FromMilliseconds(500));
            given = cancellation.Register(Clear);
        }
    }

    /// <inheritdoc/>
    public void Report(YearProgress value)
    {
        lock (writing)
        {
            // Parts end on any thread: a lower count may come later.
            latest = value.Done > latest.Done ? value : latest;
        }

        Look();
    }

    /// <summary>Shows how far the work has come, once it has taken a second.</summary>
    internal void Look()
    {
        lock (writing)
        {
            if (closed || surroundings.Clock.GetCurrentInstant() - begun < Patience)
            {
                return;
            }

            var done = latest.Total > 0 ? (int)((long)Width * latest.Done / latest.Total) : 0;
            var count = latest.Total > 0 ? string.Create(CultureInfo.InvariantCulture, $" {latest.Done} of {latest.Total}") : "";
            var line = $"\rWorking out [{new string('#', done)}{new string('.', Width - done)}]{count} ";
            if (line != shown)
            {
                shown = line;
                surroundings.Error.Write(line);
            }
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        Clear();
        looking?.Dispose();
        given.Dispose();
    }

    private void Clear()
    {
        lock (writing)
        {
            if (!closed && shown.Length > 0)
            {
                surroundings.Error.Write($"\r{new string(' ', shown.Length - 1)}\r");
            }

            closed = true;
        }
    }
}
