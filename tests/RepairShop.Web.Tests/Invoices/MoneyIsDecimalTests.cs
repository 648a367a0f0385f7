using System.Reflection;
using System.Reflection.Emit;
using Xunit;

namespace RepairShop.Web.Tests.Invoices;

/// <summary>
/// No binary fraction anywhere in the money: not as a property, not as a variable, not for a moment inside an expression. The compiled
/// code is read, instruction by instruction.
/// </summary>
public sealed class MoneyIsDecimalTests
{
    private static readonly string[] Money =
    [
        "RepairShop.Domain.Invoices", "RepairShop.Domain.EInvoices", "RepairShop.Domain.Estimates", "RepairShop.Documents.EInvoices",
        "RepairShop.Services.Invoices", "RepairShop.Services.Estimates", "RepairShop.Web.Pages.Invoices", "RepairShop.Web.Pages.Money", "RepairShop.Web.Pages.Estimates",
        "RepairShop.Domain.Ledger", "RepairShop.Services.Ledger", "RepairShop.Web.Pages.Ledger",
    ];

    private const BindingFlags Everything =
        BindingFlags.Public | BindingFlags.NonPublic | BindingFlags.Static | BindingFlags.Instance | BindingFlags.DeclaredOnly;

    private static readonly Dictionary<short, OpCode> Codes = typeof(OpCodes).GetFields(BindingFlags.Public | BindingFlags.Static)
        .Select(field => (OpCode)field.GetValue(null)!).ToDictionary(code => code.Value);

    private static readonly HashSet<OpCode> Binary =
        [OpCodes.Ldc_R4, OpCodes.Ldc_R8, OpCodes.Conv_R4, OpCodes.Conv_R8, OpCodes.Conv_R_Un, OpCodes.Ldind_R4, OpCodes.Ldind_R8, OpCodes.Stind_R4, OpCodes.Stind_R8];

    public static TheoryData<string> Namespaces => [.. Money];

    [Theory]
    [MemberData(nameof(Namespaces))]
    public void Money_is_decimal_everywhere(string name)
    {
        var types = Assembly.Load(string.Join('.', name.Split('.').Take(2))).GetTypes().Where(type => IsIn(type, name)).ToList();
        Assert.NotEmpty(types);
        var found = types.SelectMany(type => type.GetFields(Everything).Where(field => IsBinary(field.FieldType)).Select(field => $"{type.Name}.{field.Name}"))
            .Concat(types.SelectMany(type => type.GetMethods(Everything).Cast<MethodBase>().Concat(type.GetConstructors(Everything)))
                .Where(UsesBinary).Select(method => $"{method.DeclaringType!.Name}.{method.Name}"));
        Assert.Empty(found);
    }

    /// <summary>The check would be worth little if it could not see one.</summary>
    [Fact]
    public void The_check_sees_a_float_in_the_middle_of_an_expression()
    {
        Assert.True(UsesBinary(typeof(MoneyIsDecimalTests).GetMethod(nameof(Careless), Everything)!));
        Assert.False(UsesBinary(typeof(MoneyIsDecimalTests).GetMethod(nameof(Careful), Everything)!));
    }

    private static decimal Careless(int cents) => new(cents / 100.0);

    private static decimal Careful(int cents) => cents / 100m;

    private static bool IsIn(Type type, string name) => type.Namespace is { } own && (own == name || own.StartsWith(name + ".", StringComparison.Ordinal));

    private static bool IsBinary(Type type) => (Nullable.GetUnderlyingType(type) ?? type) is var kind && (kind == typeof(double) || kind == typeof(float) || kind == typeof(Half));

    private static bool UsesBinary(MethodBase method) =>
        method.GetParameters().Any(parameter => IsBinary(parameter.ParameterType))
        || (method is MethodInfo { ReturnType: var returned } && IsBinary(returned))
        || (method.GetMethodBody() is { } body && (body.LocalVariables.Any(local => IsBinary(local.LocalType)) || Instructions(body.GetILAsByteArray()!).Any(Binary.Contains)));

    private static IEnumerable<OpCode> Instructions(byte[] code)
    {
        for (var at = 0; at < code.Length;)
        {
            var opcode = code[at] == 0xFE ? Codes[(short)(0xFE00 | code[at + 1])] : Codes[code[at]];
            at += opcode.Size;
            yield return opcode;
            at += opcode.OperandType switch
            {
                OperandType.InlineNone => 0,
                OperandType.ShortInlineBrTarget or OperandType.ShortInlineI or OperandType.ShortInlineVar => 1,
                OperandType.InlineVar => 2,
                OperandType.InlineI8 or OperandType.InlineR => 8,
                OperandType.InlineSwitch => 4 + (4 * BitConverter.ToInt32(code, at)),
                _ => 4,
            };
        }
    }
}
