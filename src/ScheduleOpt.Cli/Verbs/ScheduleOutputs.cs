using System.CommandLine;
using System.Text;
using ScheduleOpt.Interchange;
using ScheduleOpt.Interchange.Answers;
using ScheduleOpt.Interchange.Outputs;

namespace ScheduleOpt.Cli.Verbs;

/// <summary>The options of <c>schedule</c> that write its answer in other forms, to files or, with <c>-</c>, in place of the screen.</summary>
internal sealed class ScheduleOutputs
{
    private readonly List<(Option<string?> Option, Func<ScheduleAnswer, byte[]> Write)> outputs = [];
    private readonly Option<string?> profile;

    /// <summary>Adds the options.</summary>
    public ScheduleOutputs(Command command)
    {
        Add(command, "--feed-file", "Writes the charging windows as a calendar (iCalendar); - for the standard output.", CalendarFeed.Write);
        Add(command, "--windows-file", "Writes the charging windows as a table (CSV).", ScheduleCsv.WriteWindows);
        Add(command, "--intervals-file", "Writes all intervals as a table (CSV).", ScheduleCsv.WriteIntervals);
        profile = Add(command, "--profile-file", "Writes the charging profile that --profile asks for; of several cars a list.", Profiles);
    }

    /// <summary>Whether one of them takes the screen's place.</summary>
    public bool TakeTheScreen(ParseResult parsed) => outputs.Any(o => parsed.GetValue(o.Option) == "-");

    /// <summary>What is wrong with the options, beside the request.</summary>
    public IEnumerable<Fault> Faults(ParseResult parsed, bool hasProfile)
    {
        if (parsed.GetValue(profile) is not null && !hasProfile)
        {
            yield return new Fault(profile.Name, "Give the version of the profile too: --profile 1.6, 2.0.1 or 2.1.");
        }

        if (outputs.Count(o => parsed.GetValue(o.Option) == "-") > 1)
        {
            yield return new Fault(string.Join(", ", outputs.Select(o => o.Option.Name)), "Only one of them may go to the standard output.");
        }
    }

    /// <summary>Writes what was asked for.</summary>
    /// <returns>The files that can't be written, each with the reason.</returns>
    public IReadOnlyList<Fault> Write(ParseResult parsed, ScheduleAnswer answer, TextWriter standardOutput)
    {
        var faults = new List<Fault>();
        foreach (var (option, write) in outputs)
        {
            if (parsed.GetValue(option) is not { } path)
            {
                continue;
            }

            if (path == "-")
            {
                standardOutput.Write(Encoding.UTF8.GetString(write(answer)));
                continue;
            }

            try
            {
                File.WriteAllBytes(path, write(answer));
            }
            catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
            {
                faults.Add(new Fault(option.Name, $"Can't be written: {e.Message}", path));
            }
        }

        return faults;
    }

    private static byte[] Profiles(ScheduleAnswer answer)
    {
        var texts = answer.Cars
            .Select(car => ChargingProfileBuilder.Build(answer.Request, car, answer.Request.Options.ChargingProfile!))
            .Select(built => Encoding.UTF8.GetString(ChargingProfileWriter.Write(built)))
            .ToArray();
        return Encoding.UTF8.GetBytes((answer.Request.CarsAreListed ? $"[{string.Join(",\n", texts)}]" : texts[0]) + "\n");
    }

    private Option<string?> Add(Command command, string name, string description, Func<ScheduleAnswer, byte[]> write)
    {
        var option = new Option<string?>(name) { Description = description, HelpName = "FILE" };
        command.Add(option);
        outputs.Add((option, write));
        return option;
    }
}
