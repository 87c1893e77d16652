using System.CommandLine;
using System.Text.Json.Nodes;
using NodaTime;
using NodaTime.Text;
using ScheduleOpt.Cli.Inputs;
using ScheduleOpt.Cli.Screens;
using ScheduleOpt.Comparison.Tonight;
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
        var settings = new ScheduleSettings(surroundings.In);
        foreach (var setting in settings.All)
        {
            command.Add(setting.Option);
        }

        var units = new UnitOptions(command);
        command.Add(json);
        examples.Add(
            command,
            $"{Verb.Program} {Name} --demo --state-of-charge 55% --supply 240V/40A/hardwired",
            $"{Verb.Program} {Name} --demo --temperature 14F --units mi --json");
        command.SetAction(parsed =>
        {
            var draft = Verb.Begin(parsed.GetValue(request), parsed.GetValue(demo), DemoRequests.Tonight, Nothing, surroundings);
            if (!draft.IsRead)
            {
                return Complaints.Write(surroundings.Error, draft.Faults, Name);
            }

            settings.Apply(parsed, draft.Value);
            if (units.Word(parsed) is { } word)
            {
                draft.Value.Set("#/options/unit", JsonValue.Create(word), "--units", word);
            }

            draft.Value.Root["asOf"] ??= InstantPattern.General.Format(WholeSecond(surroundings.Clock.GetCurrentInstant()));
            var reading = draft.Value.Read(ScheduleRequestReader.Read, settings.OptionFor);
            return reading.IsRead
                ? Answer(surroundings, reading.Value, units.Of(parsed, reading.Value.Options.Unit), parsed.GetValue(json), parsed.GetValue(demo))
                : Complaints.Write(surroundings.Error, reading.Faults, Name);
        });
        return command;
    }

    // Objects that options fill: what is missing in them is then told by the name of the field.
    private static JsonObject Nothing() => new() { ["vehicle"] = new JsonObject(), ["plugIn"] = new JsonObject() };

    private static Instant WholeSecond(Instant instant) => Instant.FromUnixTimeSeconds(instant.ToUnixTimeSeconds());

    private static int Answer(Surroundings surroundings, ScheduleRequest request, Units units, bool asJson, bool isDemo)
    {
        var question = ScheduleQuestion.Of(request);
        var plan = NightPlanner.Plan(question);
        foreach (var finding in plan.CheckFindings)
        {
            surroundings.Error.WriteLine($"warning: the schedule check found: {finding}");
        }

        if (asJson)
        {
            JsonOutput.Write(surroundings, ScheduleAnswerWriter.Write(request, plan));
            return CommandLine.Answered;
        }

        using var screen = new Screen(surroundings.Out, surroundings.HasColour);
        screen.Heading("When to charge");
        new NightScreen(screen, request, question, plan, units).Draw();
        screen.Blank();
        screen.Heading("Cautions");
        screen.List(Cautions.ForSupply(request.Cars[0].Supply));
        if (isDemo)
        {
            screen.Say(DemoHousehold.Notice, "italic");
        }

        screen.Show();
        return CommandLine.Answered;
    }
}
