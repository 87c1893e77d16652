using System.CommandLine;
using System.Text.Json.Nodes;
using NodaTime;
using NodaTime.Text;
using ScheduleOpt.Cli.Inputs;
using ScheduleOpt.Cli.Screens;
using ScheduleOpt.Interchange.Answers;
using ScheduleOpt.Interchange.Demo;
using ScheduleOpt.Interchange.Requests;

namespace ScheduleOpt.Cli.Verbs;

/// <summary>When to charge in the coming nights.</summary>
internal static class ScheduleVerb
{
    private const string Name = "schedule";

    /// <summary>Makes the verb.</summary>
    public static Command Make(Surroundings surroundings, ExampleHelp examples)
    {
        var command = new Command(
            Name,
            "When to charge in the coming nights: ready by each departure, at least cost. A request file, options, or both; options override the request.");
        var (request, demo, json) = (Verb.Request(), Verb.Demo(), Verb.Json());
        command.Add(request);
        command.Add(demo);
        SettingList[] settings = [new ScheduleSettings(surroundings.In), new RunningSettings(surroundings.In)];
        foreach (var setting in settings.SelectMany(s => s.All))
        {
            command.Add(setting.Option);
        }

        var outputs = new ScheduleOutputs(command);
        var units = new UnitOptions(command);
        command.Add(json);
        examples.Add(
            command,
            $"{Verb.Program} {Name} --demo --state-of-charge 55% --supply 240V/40A/hardwired",
            $"{Verb.Program} {Name} --demo --temperature 14F --units mi --json",
            $"{Verb.Program} {Name} --demo --no-charging 17:00-21:00 --feed-file -");
        command.SetAction(parsed =>
        {
            var draft = Verb.Begin(parsed.GetValue(request), parsed.GetValue(demo), DemoRequests.Tonight, Nothing, surroundings);
            if (!draft.IsRead)
            {
                return Complaints.Write(surroundings.Error, draft.Faults, Name);
            }

            foreach (var list in settings)
            {
                list.Apply(parsed, draft.Value);
            }

            if (units.Word(parsed) is { } word)
            {
                draft.Value.Set("#/options/unit", JsonValue.Create(word), "--units", word);
            }

            Complaints.Note(surroundings.Error, draft.Value.Notes);
            draft.Value.Root["asOf"] ??= InstantPattern.General.Format(WholeSecond(surroundings.Clock.GetCurrentInstant()));
            var reading = draft.Value.Read(ScheduleRequestReader.Read, pointer => settings.Select(s => s.OptionFor(pointer)).FirstOrDefault(o => o is not null));
            if (!reading.IsRead)
            {
                return Complaints.Write(surroundings.Error, reading.Faults, Name);
            }

            var faults = outputs.Faults(parsed, reading.Value.Options.ChargingProfile is not null).ToArray();
            if (faults.Length > 0)
            {
                return Complaints.Write(surroundings.Error, faults, Name);
            }

            var answer = Answer(surroundings, reading.Value);
            var unwritten = outputs.Write(parsed, answer, surroundings.Out);
            if (unwritten.Count > 0)
            {
                return Complaints.Write(surroundings.Error, unwritten, Name);
            }

            if (!outputs.TakeTheScreen(parsed))
            {
                Show(surroundings, answer, units.Of(parsed, reading.Value.Options.Unit), parsed.GetValue(json), parsed.GetValue(demo));
            }

            return CommandLine.Answered;
        });
        return command;
    }

    // Objects that options fill: what is missing in them is then told by the name of the field.
    private static JsonObject Nothing() => new() { ["vehicle"] = new JsonObject(), ["plugIn"] = new JsonObject() };

    private static Instant WholeSecond(Instant instant) => Instant.FromUnixTimeSeconds(instant.ToUnixTimeSeconds());

    private static ScheduleAnswer Answer(Surroundings surroundings, ScheduleRequest request)
    {
        var answer = ScheduleAnswering.Answer(request);
        foreach (var finding in answer.CheckFindings)
        {
            surroundings.Error.WriteLine($"warning: the schedule check found: {finding}");
        }

        return answer;
    }

    private static void Show(Surroundings surroundings, ScheduleAnswer answer, Units units, bool asJson, bool isDemo)
    {
        if (asJson)
        {
            JsonOutput.Write(surroundings, ScheduleAnswerWriter.Write(answer));
            return;
        }

        using var screen = new Screen(surroundings.Out, surroundings.HasColour);
        screen.Heading("When to charge");
        new NightScreen(screen, answer, units).Draw();
        screen.Blank();
        screen.Heading("Cautions");
        screen.List(Cautions.ForSchedule(answer.Request));
        if (isDemo)
        {
            screen.Say(DemoHousehold.Notice, "italic");
        }

        screen.Show();
    }
}
