using System.Xml;

namespace ScheduleOpt.Interchange.Meters.GreenButton;

/// <summary>Names of elements and attributes, of which a file has only so many.</summary>
internal sealed class LimitedNames : NameTable
{
    private int names;

    public override string Add(char[] key, int start, int len) => Get(key, start, len) ?? Counted(base.Add(key, start, len));

    public override string Add(string key) => Get(key) ?? Counted(base.Add(key));

    private string Counted(string name) => ++names <= MeterLimits.Names
        ? name
        : throw new FileRefusedException(new("#", $"A file must not have more than {MeterLimits.Names} different names of elements and attributes."));
}
