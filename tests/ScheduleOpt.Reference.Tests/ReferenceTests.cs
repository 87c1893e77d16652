namespace ScheduleOpt.Reference.Tests;

/// <summary>The reference itself: its own tests, and how it is talked to.</summary>
public sealed class ReferenceTests
{
    [Fact]
    public void Reference_OwnTests_Pass()
    {
        var (exitCode, output, error) = PythonReference.Run(PythonReference.InterpreterOrSkip(), "-m", "unittest");

        Assert.True(exitCode == 0, $"{output}\n{error}");
        Assert.DoesNotContain("Ran 0 tests", error, StringComparison.Ordinal);
    }

    [Fact]
    public void Reference_RandomRequests_AreAllAnswered()
    {
        using var reference = ReferenceProcess.StartOrSkip();
        var requests = RandomRequests.MakeOrSkip(RandomRequests.Count);
        var failures = requests.Select((request, i) => (i, reference.Answer(request).Error)).Where(a => a.Error is not null);

        Assert.Empty(failures);
    }

    [Fact]
    public void Reference_RandomHouses_AreAllAnswered()
    {
        using var reference = ReferenceProcess.StartOrSkip();
        var requests = RandomRequests.MakeHousesOrSkip(RandomRequests.HouseCount);
        var failures = requests.Select((request, i) => (i, reference.Answer(request).Error)).Where(a => a.Error is not null);

        Assert.Empty(failures);
    }

    [Fact]
    public void Reference_BadLine_IsAnsweredWithAnErrorAndServesOn()
    {
        using var reference = ReferenceProcess.StartOrSkip();
        var request = RandomRequests.MakeOrSkip(1)[0];

        Assert.NotNull(reference.Answer("{}").Error);
        Assert.Contains("unknown mutant", reference.Answer(request, "noSuchMutant").Error, StringComparison.Ordinal);
        Assert.Null(reference.Answer(request).Error);
    }

    [Fact]
    public void Reference_Mutants_AreThoseThatTheEngineIsComparedWith()
    {
        Assert.Equal(Sorted(MutantNames.All), Sorted(Printed("MUTANTS")));
        Assert.Equal(Sorted(MutantNames.OfHouses), Sorted(Printed("HOUSE_MUTANTS")));

        static IEnumerable<string> Sorted(IEnumerable<string> names) => names.Order(StringComparer.Ordinal);

        static string[] Printed(string list)
        {
            var (_, output, _) = PythonReference.Run(PythonReference.InterpreterOrSkip(), "-c", $"import mutants; print('\\n'.join(mutants.{list}))");
            return output.Split('\n', StringSplitOptions.RemoveEmptyEntries);
        }
    }
}
