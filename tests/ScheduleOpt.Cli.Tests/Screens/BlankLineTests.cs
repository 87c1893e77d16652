using System.Text.RegularExpressions;
using ScheduleOpt.Cli.Screens;

namespace ScheduleOpt.Cli.Tests.Screens;

public sealed class BlankLineTests
{
    [Fact]
    public void Blank_AfterATable_IsNotASecondEmptyLine()
    {
        using var text = new StringWriter();
        using var screen = new Screen(text, hasColour: false);
        var table = Columns.Of("One", ">Two");
        table.Row(null, "a", "b");
        screen.Draw(table);
        screen.Blank();
        screen.Say("after");
        screen.Blank();
        screen.Blank();
        screen.Say("end");
        screen.Show();

        Assert.DoesNotMatch(new Regex(@"\n\s*\n\s*\n"), text.ToString().ReplaceLineEndings("\n"));
        Assert.Matches(new Regex(@"\n\nafter\n\nend\n"), text.ToString().ReplaceLineEndings("\n"));
    }
}
