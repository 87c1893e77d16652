using System.Xml.Linq;

namespace ScheduleOpt.Architecture.Tests;

/// <summary>The house plan of DEVELOPERS.md, held: who may know whom.</summary>
public class FloorsTests
{
    private static readonly Dictionary<string, string[]> Drawn = new()
    {
        ["Core"] = [],
        ["Tariffs"] = ["Core"],
        ["Scheduling"] = ["Core"],
        ["Comparison"] = ["Core", "Tariffs", "Scheduling"],
        ["Interchange"] = ["Core", "Tariffs", "Scheduling", "Comparison"],
        ["Service"] = ["Core", "Tariffs", "Scheduling", "Comparison", "Interchange"],
        ["Cli"] = ["Core", "Tariffs", "Scheduling", "Comparison", "Interchange", "Service"],
    };

    private static readonly string[] Pure = ["Core", "Tariffs", "Scheduling", "Comparison"];

    public static TheoryData<string> Floors => [.. Drawn.Keys];

    [Fact]
    public void Source_HoldsTheFloorsDrawnAndNoOther() =>
        Assert.Equal(Drawn.Keys.Order(), Repository.Projects("src").Select(Repository.ShortName).Order());

    [Theory]
    [MemberData(nameof(Floors))]
    public void Floor_RefersOnlyToWhatIsDrawn(string floor)
    {
        var project = XDocument.Load(Repository.Path("src", $"ScheduleOpt.{floor}", $"ScheduleOpt.{floor}.csproj"));
        var references = project.Descendants("ProjectReference").Select(r => Repository.ShortName((string)r.Attribute("Include")!));
        Assert.Empty(references.Except(Drawn[floor]));
    }

    [Theory]
    [MemberData(nameof(Floors))]
    public void Floor_NamesNoFloorAboveIt(string floor)
    {
        var forbidden = Drawn.Keys.Except(Drawn[floor]).Where(other => other != floor).Select(other => $"ScheduleOpt.{other}").ToArray();
        var offences =
            from file in Repository.SourceFiles("src", $"ScheduleOpt.{floor}")
            from line in File.ReadLines(file)
            where line.StartsWith("using ", StringComparison.Ordinal)
            let name = line["using ".Length..].TrimEnd(';')
            where forbidden.Any(f => name == f || name.StartsWith(f + ".", StringComparison.Ordinal))
            select $"{file}: {line}";
        Assert.Empty(offences);
    }

    [Fact]
    public void Core_TakesNodaTimeAlone()
    {
        var project = XDocument.Load(Repository.Path("src", "ScheduleOpt.Core", "ScheduleOpt.Core.csproj"));
        Assert.Equal(["NodaTime"], project.Descendants("PackageReference").Select(p => (string)p.Attribute("Include")!));
    }

    [Fact]
    public void SolverPackage_IsNamedInSolversAlone()
    {
        var offences = Repository.SourceFiles("src")
            .Where(f => !f.Contains("/ScheduleOpt.Scheduling/Solvers/", StringComparison.Ordinal))
            .Where(f => File.ReadAllText(f).Contains("Google.OrTools", StringComparison.Ordinal));
        Assert.Empty(offences);
    }

    [Fact]
    public void PureFloors_AreHeldByTheCompiler()
    {
        // The banned symbols are switched on by project name in Directory.Build.props: the four pure floors and no others.
        var props = XDocument.Load(Repository.Path("Directory.Build.props"));
        var condition = (string)props.Descendants("IsPureProject").Single().Attribute("Condition")!;
        foreach (var floor in Drawn.Keys)
        {
            Assert.Equal(Pure.Contains(floor), condition.Contains($"'ScheduleOpt.{floor}'", StringComparison.Ordinal));
        }

        var banned = File.ReadAllLines(Repository.Path("src", "BannedSymbols.txt"));
        foreach (var symbol in new[] { "T:System.IO.File", "T:System.Console", "T:System.DateTime", "N:System.Net.Http", "T:NodaTime.SystemClock" })
        {
            Assert.Contains(banned, line => line.StartsWith(symbol + ";", StringComparison.Ordinal));
        }
    }

    [Fact]
    public void TopLevel_HoldsWhatIsAgreedAlone()
    {
        string[] agreed = ["README.md", "DEVELOPERS.md", "ScheduleOpt.sln", "src", "tests", "tariffs", "notebooks", "Dockerfile", "LICENSE", "global.json"];
        var others = Directory.EnumerateFileSystemEntries(Repository.Path()).Select(e => Path.GetFileName(e)!)
            .Where(e => !e.StartsWith('.') && !e.StartsWith("Directory.", StringComparison.Ordinal) && e is not ("bin" or "obj" or "TestResults"))
            .Except(agreed);
        Assert.Empty(others);
    }

    [Fact]
    public void Sources_AreShortAndNamedByTheTrade()
    {
        string[] words = ["Helper", "Manager", "Utils"];
        var files = Repository.SourceFiles("src").ToArray();
        Assert.NotEmpty(files);
        Assert.DoesNotContain(files, f => words.Any(w => Path.GetFileNameWithoutExtension(f).EndsWith(w, StringComparison.Ordinal)));
        Assert.Empty(files.Where(f => File.ReadLines(f).Count() > 400).Select(f => $"{f} is long: split it"));
    }
}
