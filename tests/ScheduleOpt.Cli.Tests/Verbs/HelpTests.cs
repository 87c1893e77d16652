using System.Text.RegularExpressions;

namespace ScheduleOpt.Cli.Tests.Verbs;

public sealed class HelpTests
{
    public static TheoryData<string> Verbs => ["", "schedule", "compare", "bill", "check", "serve"];

    [Theory]
    [MemberData(nameof(Verbs))]
    public async Task Help_EachExample_Runs(string verb)
    {
        var examples = Examples((await Help(verb)).Out);

        Assert.NotEmpty(examples);
        foreach (var example in examples)
        {
            var run = await CommandRun.Of([.. example.Split(' ').Skip(1)]);
            Assert.Equal((0, ""), (run.Code, run.Error));
        }
    }

    [Theory]
    [MemberData(nameof(Verbs))]
    public async Task Help_EveryVerb_ExplainsEachOptionWithin80Columns(string verb)
    {
        var run = await Help(verb);

        Assert.Equal((0, ""), (run.Code, run.Error));
        Assert.All(run.Lines, l => Assert.True(l.TrimEnd().Length <= 80, l));
        Assert.All(
            run.Lines.Where(l => Regex.IsMatch(l, "^  --")),
            l => Assert.Matches(@"^  --\S+( <\S+>)?  +\S", l));
    }

    [Fact]
    public async Task Help_Root_NamesEveryVerb()
    {
        var help = (await Help("")).Out;

        Assert.All(Verbs.Select(v => (string)v.Data).Where(v => v.Length > 0), verb => Assert.Matches($@"(?m)^  {verb}\b", help));
    }

    [Fact]
    public async Task Serve_Urls_ArriveAtTheService()
    {
        string[]? served = null;

        await CommandRun.With(args => served = args, "", ["serve", "--urls", "http://127.0.0.1:5099"]);

        Assert.Equal(["--urls", "http://127.0.0.1:5099"], served!);
        await using var app = Service.ServiceHost.Build(served!);
        Assert.NotNull(app);
    }

    private static Task<CommandRun> Help(string verb) => CommandRun.Of(verb.Length > 0 ? [verb, "--help"] : ["--help"]);

    private static string[] Examples(string help) =>
        [.. help.ReplaceLineEndings("\n").Split('\n').Select(l => l.Trim()).Where(l => Regex.IsMatch(l, "^scheduleopt( |$)") && !l.Contains('['))];
}
