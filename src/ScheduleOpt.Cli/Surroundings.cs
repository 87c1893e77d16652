using System.Text;
using NodaTime;
using ScheduleOpt.Service;

namespace ScheduleOpt.Cli;

/// <summary>Everything outside that a command touches, so that tests can stand in for it.</summary>
public sealed record Surroundings
{
    /// <summary>Where answers go.</summary>
    public required TextWriter Out { get; init; }

    /// <summary>Where errors and progress go.</summary>
    public required TextWriter Error { get; init; }

    /// <summary>What <c>-</c> reads.</summary>
    public TextReader In { get; init; } = TextReader.Null;

    /// <summary>Whether answers may be coloured: a terminal, and NO_COLOR not set.</summary>
    public bool HasColour { get; init; }

    /// <summary>Whether errors go to a terminal; progress is shown only there.</summary>
    public bool ErrorIsTerminal { get; init; }

    /// <summary>The clock that <c>--as-of</c> replaces.</summary>
    public IClock Clock { get; init; } = SystemClock.Instance;

    /// <summary>Starts the HTTP service and waits for its end.</summary>
    public Func<string[], Task<int>> Serve { get; init; } = static args => ServiceHost.RunAsync(args);

    /// <summary>The surroundings of a real run.</summary>
    public static Surroundings OfThisProcess()
    {
        Console.OutputEncoding = new UTF8Encoding(false);
        return new Surroundings
        {
            Out = Console.Out,
            Error = Console.Error,
            In = Console.In,
            HasColour = !Console.IsOutputRedirected && string.IsNullOrEmpty(Environment.GetEnvironmentVariable("NO_COLOR")),
            ErrorIsTerminal = !Console.IsErrorRedirected,
        };
    }
}
